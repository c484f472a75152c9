package mail

import (
	"errors"
	"fmt"
	"net/textproto"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"github.com/wneessen/go-mail/smtp"
)

// outcome is the outcome of one try.
type outcome struct {
	state   State  // Begun if it is in doubt
	answer  string // of the server, or what happened instead
	address bool   // the server refuses this address, and not the message or the sender
	broken  bool   // the connection cannot be used again
	fatal   error  // stops the run
}

// send hands one message to the server. An error before the end mark is written
// means that the message is not delivered, because a server must not deliver an
// incomplete message (RFC 5321, 4.1.1.4). If the connection breaks between the end
// mark and the answer, the message is in doubt.
func send(c *smtp.Client, from, to string, raw []byte) outcome {
	if o := begin(c, from); o.state != "" {
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

// begin opens a message of a sender; the outcome is empty if the server takes it.
func begin(c *smtp.Client, from string) outcome {
	if err := c.UpdateDeadline(commandTimeout); err != nil {
		return fromError(err)
	}
	err := c.Mail(path(from))
	if err == nil {
		return outcome{}
	}
	o := fromError(err)
	if o.state == Refused {
		o.state, o.fatal = Unsent, fmt.Errorf("%w (%s): %s", errSender, from, o.answer)
	}
	return o
}

// offer opens a message of a sender and takes it back.
func offer(c *smtp.Client, from string) outcome { return afterReset(c, begin(c, from)) }

// largest is the most bytes of a message that the server takes (RFC 1870); 0 if it
// does not say.
func largest(c *smtp.Client) int {
	_, most := c.Extension("SIZE")
	n, err := strconv.Atoi(most)
	if err != nil {
		return 0
	}
	return n
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
		o.address = aboutAddress.MatchString(o.answer)
	}
	// A server that closes the connection answers 421.
	o.broken = refusal.Code == 421
	return o
}

// aboutAddress matches the answers about a mailbox or its address (RFC 3463, 3.2 and
// 3.3), other than about the sender.
var aboutAddress = regexp.MustCompile(`^5\d\d 5\.(1\.[0-69]|1\.10|2\.[0-2])\b`)

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
