package main

import (
	"context"
	"crypto/x509"
	"fmt"
	"io"
	"net"
	netmail "net/mail"
	"os"
	"slices"
	"strconv"
	"time"

	"github.com/urfave/cli/v2"

	"tenback/cmd/internal/batch"
	"tenback/cmd/internal/mail"
	"tenback/cmd/internal/report"
	"tenback/cmd/internal/terminal"
	"tenback/workbook"
	"tenback/workbook/result"
	settings "tenback/workbook/roster"
	"tenback/workbook/safefile"
)

func deliverCommand() *cli.Command {
	return &cli.Command{
		Name:      "deliver",
		Usage:     "bring each page to its person, as a draft or through a mail server",
		ArgsUsage: "ROSTER-scored.xlsx",
		Description: `Reads the scored workbook and the pages beside it, and writes one message per
person into the folder ROSTER-outbox: a draft that a mail program opens, with
the page attached. Nothing is sent. Addresses come from a column such as Email;
for people under 18 from a column such as "Guardian email".

With --smtp the messages are sent, after a preview and a question. The server
must encrypt. ROSTER-ledger.jsonl records what was sent, so a stopped run
continues where it was. A page goes only to an address of its person, and only
if its key is that person's. ROSTER-outbox/not-delivered.txt lists the others.

Example:  tenback deliver fitness-week-scored.xlsx --lock

` + sharedHelp,
		Flags: append(rosterFlags(),
			&cli.StringFlag{Name: "audience", Usage: "who reads the messages: `WHO` is school, workplace or squad, as for the pages"},
			langFlag("the messages"),
			wordsFlag(),
			&cli.StringFlag{Name: "org", Usage: "`NAME` of your organisation"},
			&cli.StringFlag{Name: "contact", Usage: "`LINE` that says whom to ask"},
			&cli.StringFlag{Name: "from", Usage: "`ADDRESS` that the messages come from, such as \"PE office <pe@school.example>\""},
			&cli.BoolFlag{Name: "lock", Usage: "put a password on each page, from a column Password or a new one"},
			&cli.BoolFlag{Name: "allow-direct", Usage: "send the page to people under 18 who have no address of a parent"},
			&cli.BoolFlag{Name: "allow-shared", Usage: "send the pages of several adults to one address"},
			&cli.StringFlag{Name: "smtp", Usage: "send through a mail server, with TLS (port 465) or STARTTLS: `HOST:PORT`"},
			&cli.StringFlag{Name: "smtp-ca", Usage: "trust also the root certificates in `FILE`, for a server of your own"},
			&cli.StringFlag{Name: "user", Usage: "`NAME` to sign in; the password is asked for, or from " + smtpPasswordVariable},
			&cli.IntFlag{Name: "pace", Usage: "send at most `N` messages a minute", Value: 30},
			&cli.BoolFlag{Name: "again", Usage: "send also if page or address has changed, or the server refused"},
			&cli.StringFlag{Name: "in-doubt", Usage: "how to treat messages in doubt: `WHAT` is sent, unsent or leave (default: ask)"},
			&cli.BoolFlag{Name: "yes", Usage: "do not ask before sending"},
		),
		Action: func(c *cli.Context) error {
			path, err := oneArgument(c, "a scored workbook")
			if err != nil {
				return err
			}
			return deliver(c, path)
		},
	}
}

// deliver is one run of the command.
func deliver(c *cli.Context, path string) error {
	d := &mail.Delivery{Files: batch.FilesOf(path), Roster: path, Lock: c.Bool("lock"), AllowDirect: c.Bool("allow-direct"), AllowShared: c.Bool("allow-shared"),
		Asker: terminal.NewAsker(c.App.Reader, c.App.Writer), Now: time.Now()}
	reading, err := readOptions(c)
	if err != nil {
		return err
	}
	if text := c.String("from"); text != "" {
		if d.From, err = mail.ParseSender(text); err != nil {
			return usageError(fmt.Sprintf("--from: %v", err))
		}
	}
	if d.Sending, err = sendingFromFlags(c, d.From); err != nil {
		return err
	}
	roster, err := openRoster(path, reading)
	if err != nil {
		return err
	}
	release, err := reserve(d.Files.Dir, d.Files.Base, path)
	if err != nil {
		return err
	}
	defer release()
	_, set := roster.Settings[settings.SetLanguage]
	if lang := result.Language(roster); !set && lang != "" { // of the run that made the pages
		roster.Settings[settings.SetLanguage] = settings.SettingValue{Value: lang}
	}
	(&batch.Folder{Path: d.Files.Pages()}).Recall(roster)
	maker, err := newPageMaker(roster, c.String("words"), localePaper(os.Getenv))
	if err != nil {
		return err
	}
	d.Look = mail.Look{Words: maker.words, Lang: maker.lang, Brand: maker.brand, Paper: maker.paper, Audience: maker.audienceOf}
	left, complete, err := d.Run(c.Context, c.App.Writer, roster)
	printLeft(c.App.Writer, left, d.Files.NotDelivered())
	if err == nil && (len(left) > 0 || !complete) {
		return errLeftOut
	}
	return err
}

// smtpPasswordVariable is the environment variable that may hold the password
// of the mail server.
const smtpPasswordVariable = "TENBACK_SMTP_PASSWORD"

// sendingFromFlags returns nil without --smtp.
func sendingFromFlags(c *cli.Context, from *netmail.Address) (*mail.Sending, error) {
	if c.String("smtp") == "" {
		for _, name := range []string{"smtp-ca", "user", "pace", "again", "in-doubt", "yes"} {
			if c.IsSet(name) {
				return nil, usageError(fmt.Sprintf("--%s is for sending; name the mail server with --smtp, or leave it out", name))
			}
		}
		return nil, nil
	}
	host, port, err := net.SplitHostPort(c.String("smtp"))
	number, wrong := strconv.Atoi(port)
	if err != nil || wrong != nil || host == "" || number < 1 || number > 65535 {
		return nil, usageError(fmt.Sprintf("--smtp: %q should be HOST:PORT, such as mail.school.example:587", c.String("smtp")))
	}
	if from == nil {
		return nil, usageError("--smtp needs --from, the address that the messages come from")
	}
	s := &mail.Sending{Server: mail.Server{Host: host, Port: number, User: c.String("user")}, From: from.Address,
		Again: c.Bool("again"), InDoubt: c.String("in-doubt"), Yes: c.Bool("yes")}
	if s.Server.Roots, err = rootsOf(c.String("smtp-ca")); err != nil {
		return nil, err
	}
	if c.Int("pace") < 1 {
		return nil, usageError("--pace takes a whole number from 1")
	}
	s.Pace = time.Minute / time.Duration(c.Int("pace"))
	if s.InDoubt != "" && !slices.Contains(mail.InDoubts, s.InDoubt) {
		return nil, usageError(fmt.Sprintf("--in-doubt is sent, unsent or leave, not %q", s.InDoubt))
	}
	if s.Server.User != "" {
		s.Password = func(ctx context.Context) (string, error) {
			if p := os.Getenv(smtpPasswordVariable); p != "" {
				return p, nil
			}
			return askPassword(ctx, c.App.Reader, c.App.ErrWriter, s.Server.User+" at "+host, smtpPasswordVariable)
		}
	}
	return s, nil
}

// rootsMost bounds the bytes of a file of certificates.
const rootsMost = 4 << 20

// rootsOf returns the certificates of the system and of a PEM file; nil without a file.
func rootsOf(path string) (*x509.CertPool, error) {
	if path == "" {
		return nil, nil
	}
	text, err := safefile.ReadPlain(path, rootsMost)
	if err != nil {
		return nil, fmt.Errorf("--smtp-ca: %w", err)
	}
	roots, err := x509.SystemCertPool()
	if err != nil {
		roots = x509.NewCertPool()
	}
	if !roots.AppendCertsFromPEM(text) {
		return nil, usageError(fmt.Sprintf("--smtp-ca: %s holds no certificate in PEM form (it begins with -----BEGIN CERTIFICATE-----)", path))
	}
	return roots, nil
}

// printLeft prints the people without a message.
func printLeft(out io.Writer, left []mail.Left, list string) {
	if len(left) == 0 {
		return
	}
	fmt.Fprintf(out, "\nNo message for %s; all of them in %s\n", terminal.Count(len(left), "person", "people"), list)
	roster := &workbook.Roster{}
	var problems []workbook.Problem
	for _, l := range left {
		problems = append(problems, l.Problem)
	}
	report.PrintFindings(out, roster.Findings(problems))
}
