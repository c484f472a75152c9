package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/terminal"
	"tenback/workbook"
	"tenback/workbook/safefile"
	"tenback/workbook/starter"
)

func newCommand() *cli.Command {
	var settings []string
	for _, s := range workbook.Settings() {
		settings = append(settings, string(s))
	}
	return &cli.Command{
		Name:      "new",
		Usage:     "write a starter roster with the columns of your setting",
		ArgsUsage: "FILE.xlsx",
		Description: `Writes an empty roster with drop-down lists, number formats, a comment on each
column and a guide sheet that explains every test and column.

Example:  tenback new fitness-week.xlsx --for school`,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "for", Usage: "`SETTING`: " + strings.Join(settings, ", ")},
			langFlag("the roster and its guide"),
			wordsFlag(),
		},
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a file name")
			if err != nil {
				return err
			}
			setting, err := workbook.ParseSetting(c.String("for"))
			if err != nil {
				return usageError(fmt.Sprintf("--for: %v", err))
			}
			if !strings.EqualFold(filepath.Ext(path), ".xlsx") {
				return usageError(fmt.Sprintf("the file name %q should end in .xlsx", path))
			}
			words, err := wordsOf(c)
			if err != nil {
				return err
			}
			err = writeNew(path, "choose another name", func(w io.Writer) error { return starter.Write(w, setting, words) })
			if err != nil {
				return err
			}
			fmt.Fprintf(c.App.Writer, "Wrote %s. Fill it in, then: tenback run %s\n", path, terminal.Argument(path))
			return nil
		},
	}
}

// writeNew writes a file that must not exist yet; advice is the hint if it does.
func writeNew(path, advice string, write func(io.Writer) error) error {
	err := safefile.WriteNew(path, write)
	if errors.Is(err, fs.ErrExist) {
		return terminal.Hinted(fmt.Errorf("%s exists and is not overwritten", path), advice)
	}
	return err
}
