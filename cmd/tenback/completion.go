package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"
)

// completionFlag, last in the command line, asks the library for completions.
const completionFlag = "--generate-bash-completion"

// completions are shell scripts that have the program complete a line itself.
var completions = map[string]string{
	"bash": `_tenback() {
  COMPREPLY=($(compgen -W "$(tenback "${COMP_WORDS[@]:1:COMP_CWORD}" ` + completionFlag + `)" -- "${COMP_WORDS[COMP_CWORD]}"))
}
complete -o default -o bashdefault -F _tenback tenback`,
	"zsh": `#compdef tenback
_tenback() {
  local -a all=("${(@f)$(tenback "${(@)words[2,CURRENT]}" ` + completionFlag + `)}")
  compadd -- $all
  _files
}
compdef _tenback tenback`,
}

func completionCommand() *cli.Command {
	return &cli.Command{
		Name:      "completion",
		Usage:     "print a script that completes commands and options in your shell",
		ArgsUsage: "SHELL",
		Description: `SHELL is bash, zsh or fish.

Example:  source <(tenback completion bash)`,
		Action: func(c *cli.Context) error {
			shell, err := oneArgument(c, "a shell: bash, zsh or fish")
			if err != nil {
				return err
			}
			script, ok := completions[shell]
			if shell == "fish" {
				script, err = c.App.ToFishCompletion()
			} else if !ok {
				return usageError(fmt.Sprintf("completion knows bash, zsh and fish, not %q", shell))
			}
			fmt.Fprintln(c.App.Writer, strings.TrimSpace(script))
			return err
		},
	}
}

func manualCommand() *cli.Command {
	return &cli.Command{
		Name:        "manual",
		Usage:       "print the manual page, for man",
		Description: "Example:  tenback manual > tenback.1 && man ./tenback.1",
		Action: func(c *cli.Context) error {
			if err := noArgument(c); err != nil {
				return err
			}
			page, err := c.App.ToManWithSection(1)
			fmt.Fprint(c.App.Writer, page)
			return err
		},
	}
}
