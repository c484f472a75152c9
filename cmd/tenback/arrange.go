package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
	"github.com/urfave/cli/v2"
)

// arrange moves options before arguments, because the library silently ignores
// options after the first argument. If the first word is no command, it is a
// roster for the run command.
func arrange(app *cli.App, args []string) ([]string, error) {
	if len(args) < 2 || args[len(args)-1] == completionFlag {
		return args, nil
	}
	rest := args[1:]
	switch rest[0] {
	case "-h", "--help", "-v", "--version":
		return args, nil
	}
	command := findCommand(app, rest[0])
	if command == nil {
		if err := meantCommand(app, rest[0]); err != nil {
			return nil, err
		}
		command = findCommand(app, "run")
	} else {
		rest = rest[1:]
	}
	options, operands, err := split(command, rest)
	if err != nil {
		return nil, err
	}
	ordered := append([]string{args[0], command.Name}, options...)
	return append(append(ordered, "--"), operands...), nil
}

func findCommand(app *cli.App, name string) *cli.Command {
	for _, c := range app.Commands {
		if c.HasName(name) {
			return c
		}
	}
	return nil
}

// slipsMost is the greatest edit distance of a mistyped command.
const slipsMost = 2

// meantCommand returns an error if word looks like a mistyped command rather than
// a file.
func meantCommand(app *cli.App, word string) error {
	if strings.HasPrefix(word, "-") || strings.ContainsAny(word, `./\`) {
		return nil
	}
	near, least := "", slipsMost+1
	for _, c := range app.Commands {
		if slips := levenshtein.ComputeDistance(strings.ToLower(word), c.Name); slips < least {
			near, least = c.Name, slips
		}
	}
	if near != "" {
		return usageError(fmt.Sprintf("there is no command %q; did you mean %q?", word, near))
	}
	return usageError(fmt.Sprintf("there is no command %q, and the name of a roster ends in .xlsx, .xlsm, .ods or .csv", word))
}

// split separates options, with their values, from operands.
func split(command *cli.Command, words []string) (options, operands []string, err error) {
	for i := 0; i < len(words); i++ {
		word := words[i]
		if word == "--" {
			return options, append(operands, words[i+1:]...), nil
		}
		if len(word) < 2 || word[0] != '-' {
			operands = append(operands, word)
			continue
		}
		name, _, hasValue := strings.Cut(strings.TrimLeft(word, "-"), "=")
		if name == "password" && hasValue {
			return nil, nil, usageError("--password takes no value, because others could see it; it asks for the password")
		}
		options = append(options, word)
		flag := findFlag(command, name)
		if flag == nil {
			if name == "help" || name == "h" {
				continue
			}
			return nil, nil, noOption(command, name)
		}
		if _, isSwitch := flag.(*cli.BoolFlag); isSwitch || hasValue {
			continue
		}
		if i+1 == len(words) {
			return nil, nil, usageError(fmt.Sprintf("--%s needs a value", name))
		}
		i++
		options = append(options, words[i])
	}
	return options, operands, nil
}

// removedOptions says what to write in place of options of earlier versions.
var removedOptions = map[string]string{
	"accent":      `write --set "Accent colour=COLOUR"`,
	"logo":        `write --set "Logo=FILE"`,
	"equation":    `write --set "Equation=ID"`,
	"youth-table": `write --set "Youth table=TABLE"`,
	"fallback":    `write --set "Estimate without a test=yes"`,
	"sex-code":    `write --set "Sex code=1=M,2=F"`,
	"date-order":  `write --set "Date order=day-first"`,
	"jobs":        "leave it out; GOMAXPROCS limits the processors that are used",
	"shard":       "leave it out; one run takes 200,000 rows",
	"mark":        "leave it out; tenback check lists each cell with what to type, and so does the column of flags",
	"fresh":       "leave it out; every page is drawn again, and its file rewritten if it differs",
}

// noOption is the error for an option that a command does not have.
func noOption(command *cli.Command, name string) error {
	if instead, removed := removedOptions[name]; removed {
		return usageError(fmt.Sprintf("there is no option --%s any more; %s", name, instead))
	}
	return usageError(fmt.Sprintf("%s has no option --%s", command.Name, name))
}

func findFlag(command *cli.Command, name string) cli.Flag {
	for _, f := range command.Flags {
		if slices.Contains(f.Names(), name) {
			return f
		}
	}
	return nil
}

// noArgument returns an error if the command has operands.
func noArgument(c *cli.Context) error {
	if c.Args().Len() > 0 {
		return usageError(fmt.Sprintf("%s takes no argument, but got %q", c.Command.Name, c.Args().First()))
	}
	return nil
}

// oneArgument returns the single operand of a command.
func oneArgument(c *cli.Context, what string) (string, error) {
	switch c.Args().Len() {
	case 1:
		return c.Args().First(), nil
	case 0:
		return "", usageError(fmt.Sprintf("%s needs %s", c.Command.Name, what))
	}
	return "", usageError(fmt.Sprintf("%s takes one argument, %s, but got %q too", c.Command.Name, what, c.Args().Get(1)))
}
