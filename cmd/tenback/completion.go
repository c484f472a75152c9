package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"text/template"

	"github.com/urfave/cli/v2"
)

// completions writes the script with which a shell completes commands and
// options. fish's is the library's; the library's own for the others start the
// program at every press of the key, these do not.
var completions = map[string]func(*cli.App) (string, error){
	"bash":       func(app *cli.App) (string, error) { return fillCompletion(bashCompletion, app) },
	"zsh":        func(app *cli.App) (string, error) { return fillCompletion(zshCompletion, app) },
	"powershell": func(app *cli.App) (string, error) { return fillCompletion(powershellCompletion, app) },
	"fish":       (*cli.App).ToFishCompletion,
}

func completionCommand() *cli.Command {
	shells := strings.Join(slices.Sorted(maps.Keys(completions)), ", ")
	return &cli.Command{
		Name:      "completion",
		Usage:     "print a script with which your shell completes commands and options",
		ArgsUsage: "SHELL",
		Description: `SHELL is one of ` + shells + `.

Example:  source <(tenback completion bash)
          tenback completion fish > ~/.config/fish/completions/tenback.fish
          tenback completion powershell | Out-String | Invoke-Expression`,
		Action: func(c *cli.Context) error {
			shell, err := oneArgument(c, "a shell: "+shells)
			if err != nil {
				return err
			}
			write, ok := completions[shell]
			if !ok {
				return usageError(fmt.Sprintf("completion knows %s, not %q", shells, shell))
			}
			script, err := write(c.App)
			if err != nil {
				return err
			}
			fmt.Fprintln(c.App.Writer, strings.TrimSpace(script))
			return nil
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

func fillCompletion(script string, app *cli.App) (string, error) {
	t, err := template.New("completion").Funcs(template.FuncMap{"quote": quoteForShell}).Parse(script)
	if err != nil {
		return "", err
	}
	type command struct {
		Name, Usage string
		Options     []string
	}
	var all []command
	for _, c := range app.VisibleCommands() {
		one := command{Name: c.Name, Usage: c.Usage, Options: []string{"--help"}}
		for _, f := range c.VisibleFlags() {
			if name := "--" + f.Names()[0]; name != "--help" {
				one.Options = append(one.Options, name)
			}
		}
		all = append(all, one)
	}
	var out strings.Builder
	err = t.Execute(&out, all)
	return out.String(), err
}

// quoteForShell puts a text between single quotes, in which it may hold none.
func quoteForShell(s string) string { return "'" + strings.ReplaceAll(s, "'", "’") + "'" }

const bashCompletion = `
# bash completion of tenback
_tenback() {
  local cur=${COMP_WORDS[COMP_CWORD]} words=
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    words="{{range .}}{{.Name}} {{end}}--help --version"
  else
    case ${COMP_WORDS[1]} in
{{- range .}}
    {{.Name}}) words="{{range .Options}}{{.}} {{end}}" ;;
{{- end}}
    esac
  fi
  case $cur in
  -*) COMPREPLY=($(compgen -W "$words" -- "$cur")) ;;
  *) [ "$COMP_CWORD" -eq 1 ] && COMPREPLY=($(compgen -W "$words" -- "$cur")) ;;
  esac
}
complete -o default -o bashdefault -F _tenback tenback
`

const zshCompletion = `
#compdef tenback
# zsh completion of tenback
_tenback() {
  local -a commands options
  commands=(
{{- range .}}
    {{.Name}}:{{quote .Usage}}
{{- end}}
  )
  if (( CURRENT == 2 )); then
    _describe -t commands command commands
    _files
    return
  fi
  case ${words[2]} in
{{- range .}}
  {{.Name}}) options=({{range .Options}}{{.}} {{end}}) ;;
{{- end}}
  esac
  if [[ ${words[CURRENT]} == -* ]]; then
    compadd -- $options
  else
    _files
  fi
}
compdef _tenback tenback
`

const powershellCompletion = `
# PowerShell completion of tenback
Register-ArgumentCompleter -Native -CommandName tenback -ScriptBlock {
  param($word, $line, $at)
  $options = @{
{{- range .}}
    '{{.Name}}' = @({{range $i, $o := .Options}}{{if $i}}, {{end}}'{{$o}}'{{end}})
{{- end}}
  }
  $before = @($line.CommandElements | Select-Object -Skip 1 | ForEach-Object { $_.ToString() })
  if ($before.Count -eq 0 -or ($before.Count -eq 1 -and $word -ne '')) {
    $all = $options.Keys | Sort-Object
  } else {
    $all = $options[$before[0]]
  }
  $all | Where-Object { $_ -like "$word*" } | ForEach-Object {
    [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
  }
}
`
