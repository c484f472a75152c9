package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"time"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/shard"
	"tenback/workbook"
)

func gatherCommand() *cli.Command {
	return &cli.Command{
		Name:      "gather",
		Usage:     "put the parts that run --shard made into one workbook and one summary",
		ArgsUsage: "ROSTER.xlsx",
		Description: `Finds ROSTER-scored-1-of-N.xlsx to ROSTER-scored-N-of-N.xlsx, sees that all are
there and each is what this program makes of its part of the roster, and writes
ROSTER-scored.xlsx and the organiser's summary, the same as a single run's. The
pages stay in the folders of the parts. Give the options that the parts were
run with.

Example:  tenback run district.xlsx --shard 1/4     (and 2/4, 3/4, 4/4, anywhere)
          tenback gather district.xlsx`,
		Flags: append(append(readFlags(), lookFlags()...),
			smallestFlag(),
			&cli.StringFlag{Name: "out", Usage: "the parts lie in `DIR` instead of beside the roster, and the results go there"},
			&cli.BoolFlag{Name: "mark", Usage: "the parts were run with --mark"},
			&cli.BoolFlag{Name: "break-signature", Usage: "the parts were run with --break-signature"},
			&cli.BoolFlag{Name: "no-reports", Usage: "the parts were run with --no-reports"},
			paperFlag(),
		),
		Action: func(c *cli.Context) error {
			p, err := runPlanFromFlags(c)
			if err != nil {
				return err
			}
			smallest, err := smallestOf(c)
			if err != nil {
				return err
			}
			read, maker, err := p.gather(c.Context, c.App.Writer, c.App.ErrWriter)
			if err != nil {
				return err
			}
			if err := summarise(c.App.Writer, read, maker, smallest, p.out); err != nil {
				return err
			}
			return leftOut(read.outcomes)
		},
	}
}

// gather writes the workbook of all parts, and gives what it holds and what its
// pages are made with.
func (p runPlan) gather(ctx context.Context, out, errs io.Writer) (read scoredRoster, maker *pageMaker, err error) {
	parts, err := p.parts()
	if err != nil {
		return read, nil, err
	}
	roster, earlier, maker, err := p.open(errs)
	if err != nil {
		return read, nil, err
	}
	noteClock(errs, roster)
	release, err := reserve(p.out, p.base(), p.roster)
	if err != nil {
		return read, nil, err
	}
	defer release()
	outcomes := batch.Score(roster, p.score, earlier...)
	if !p.reports {
		withoutReports(outcomes)
	}
	options := workbook.WriteOptions{Words: maker.words[maker.lang], Mark: p.mark, BreakSignature: p.breakSignature, Now: time.Now()}
	missing := 0
	for _, part := range parts {
		mine := p
		mine.part = part
		picked := part.Of(outcomes)
		if err := mine.same(ctx, roster, picked, options); err != nil {
			return read, nil, err
		}
		for i := range picked {
			if picked[i].Report == "" {
				continue
			}
			if _, err := os.Stat(filepath.Join(mine.folder(), picked[i].Report)); err != nil {
				missing++
			}
		}
	}
	if _, err := workbook.WriteResults(ctx, roster, outcomes, p.scored(), options); err != nil {
		return read, nil, err
	}
	fmt.Fprintf(out, "Gathered  %s of %s\n", count(len(parts), "part", "parts"), countPeople(outcomes))
	fmt.Fprintf(out, "Workbook  %s\n", p.scored())
	if missing > 0 {
		fmt.Fprintf(out, "Note      %s not beside the parts: bring the folders %s here, or run the parts again\n", count(missing, "page is", "pages are"), p.base()+pagesEnding+"-*")
	}
	return scoredRoster{roster, earlier, p.score, outcomes}, maker, nil
}

// parts finds the parts that lie in the folder, and holds that they are all of
// one set.
func (p runPlan) parts() ([]shard.Part, error) {
	pattern := regexp.MustCompile(`^` + regexp.QuoteMeta(p.base()+scoredEnding) + `-(\d{1,5})-of-(\d{1,5})\.(?i:xlsx|xlsm)$`)
	entries, err := os.ReadDir(p.out)
	if err != nil {
		return nil, err
	}
	there, n := map[int]bool{}, 0
	for _, e := range entries {
		m := pattern.FindStringSubmatch(e.Name())
		if m == nil {
			continue
		}
		part, err := shard.Parse(m[1] + "/" + m[2])
		if err != nil {
			continue
		}
		if n != 0 && part.N != n {
			return nil, hinted{fmt.Errorf("%s holds parts of %d and parts of %d", p.out, n, part.N), "keep those of one set, and move the others away"}
		}
		n, there[part.K] = part.N, true
	}
	if n == 0 {
		return nil, hinted{fmt.Errorf("no part such as %s-scored-1-of-4.xlsx lies in %s", p.base(), p.out), "tenback run --shard 1/4 makes the first of four; --out says where the parts lie"}
	}
	var parts []shard.Part
	for k := 1; k <= n; k++ {
		if !there[k] {
			return nil, hinted{fmt.Errorf("part %d of %d is missing in %s", k, n, p.out), "tenback run --shard " + strconv.Itoa(k) + "/" + strconv.Itoa(n) + " makes it"}
		}
		parts = append(parts, shard.Part{K: k, N: n})
	}
	return parts, nil
}

// same holds that a part is, byte for byte, what this program makes of the
// roster: a part of another roster, made with other options or by another
// version, must not get into the whole.
func (p runPlan) same(ctx context.Context, roster *workbook.Roster, outcomes []workbook.Outcome, options workbook.WriteOptions) error {
	dir, err := os.MkdirTemp(p.out, ".tenback-gather-*")
	if err != nil {
		return err
	}
	defer func() { _ = os.RemoveAll(dir) }() // what is left harms nobody
	again := filepath.Join(dir, filepath.Base(p.scored()))
	if _, err := workbook.WriteResults(ctx, roster, outcomes, again, options); err != nil {
		return err
	}
	equal, err := sameBytes(again, p.scored())
	if err != nil {
		return err
	}
	if !equal {
		return hinted{fmt.Errorf("%s is not what this program makes of part %d of %d: the roster has changed since, or the options or the version are others", p.scored(), p.part.K, p.part.N),
			fmt.Sprintf("give the options that the part was run with, or run it again with --shard %d/%d", p.part.K, p.part.N)}
	}
	return nil
}

// sameBytes compares a file of ours with another one.
func sameBytes(a, b string) (bool, error) {
	left, err := os.Open(a)
	if err != nil {
		return false, err
	}
	defer left.Close()
	right, err := openPlain(b)
	if err != nil {
		return false, err
	}
	defer right.Close()
	x, y := make([]byte, 1<<16), make([]byte, 1<<16)
	for {
		n, errLeft := io.ReadFull(left, x)
		m, errRight := io.ReadFull(right, y)
		switch {
		case !bytes.Equal(x[:n], y[:m]):
			return false, nil
		case errLeft == nil && errRight == nil:
		case isEnd(errLeft) && isEnd(errRight):
			return true, nil
		case !isEnd(errLeft) && errLeft != nil:
			return false, errLeft
		case !isEnd(errRight) && errRight != nil:
			return false, errRight
		}
	}
}

func isEnd(err error) bool { return err == io.EOF || err == io.ErrUnexpectedEOF }
