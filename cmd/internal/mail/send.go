package mail

import (
	"errors"
	"fmt"
	"net/textproto"
	"strings"
	"unicode"

	"github.com/wneessen/go-mail/smtp"
)

// outcome is the outcome of one try.
type outcome struct {
	state  State  // Begun if it is in doubt
	answer string // of the server, or what happened instead
	broken bool   // the connection cannot be used again
	fatal  error  // stops the run
}

// send hands one message to the server. An error before the end mark is written
// means that the message is not delivered, because a server must not deliver an
// incomplete message (RFC 5321, 4.1.1.4). If the connection breaks between the end
// mark and the answer, the message is in doubt.
func send(c *smtp.Client, from, to string, raw []byte) outcome {
	if err := c.UpdateDeadline(commandTimeout); err != nil {
		return fromError(err)
	}
	if err := c.Mail(path(from)); err != nil {
		o := fromError(err)
		if o.state == Refused {
			o.state, o.fatal = Unsent, fmt.Errorf("%w (%s): %s", errSender, from, o.answer)
		}
		return o
	}
	if err := c.Rcpt(path(to)); err != nil {
		return afterReset(c, fromError(err))
	}
	w, err := c.Data()
	if err != nil {
		return afterReset(c, fromError(err))
	}
	if err := c.UpdateDeadline(messageTimeout); err != nil {
		return fromError(err)
	}
	if _, err := w.Write(raw); err != nil {
		return fromError(err)
	}
	err = w.Close()
	var refusal *textproto.Error
	switch {
	case err == nil:
		answer := ""
		if d, ok := w.(*smtp.DataCloser); ok {
			answer = "250 " + answerLine(d.ServerResponse())
		}
		return outcome{state: Sent, answer: answer}
	case errors.As(err, &refusal):
		return fromError(err)
	}
	return outcome{state: Begun, answer: "the connection broke before the answer: " + answerLine(err.Error()), broken: true}
}

// path returns an address in the angle brackets that RFC 5321, 4.1.1.2 asks for. The
// library adds none.
func path(address string) string { return "<" + address + ">" }

// afterReset prepares the connection for the next message.
func afterReset(c *smtp.Client, o outcome) outcome {
	if !o.broken && c.Reset() != nil {
		o.broken = true
	}
	return o
}

// fromError returns the outcome of a try that was not delivered.
func fromError(err error) outcome {
	var refusal *textproto.Error
	if !errors.As(err, &refusal) {
		return outcome{state: Unsent, answer: "not handed over: " + answerLine(err.Error()), broken: true}
	}
	o := outcome{state: Later, answer: answerLine(fmt.Sprintf("%d %s", refusal.Code, refusal.Msg))}
	if refusal.Code/100 == 5 {
		o.state = Refused
	}
	// A server that closes the connection answers 421.
	o.broken = refusal.Code == 421
	return o
}

// maxAnswer bounds the characters kept of a server's answer.
const maxAnswer = 300

// answerLine makes one line of a server's answer, which may contain anything.
func answerLine(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == unicode.ReplacementChar {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, " "))
	letters := []rune(strings.Join(strings.Fields(text), " "))
	return string(letters[:min(len(letters), maxAnswer)])
}
