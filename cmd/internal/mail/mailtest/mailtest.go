// Package mailtest is a mail server for tests. It listens on this computer, keeps
// the messages, and can be made to fail.
package mailtest

import (
	"bytes"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"io"
	"net"
	"net/http/httptest"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/emersion/go-sasl"
	"github.com/emersion/go-smtp"
)

// Secrecy is the encryption of a server.
type Secrecy int

// The ways to encrypt.
const (
	Plain Secrecy = iota
	StartTLS
	FromTheStart
)

// Message is an accepted message.
type Message struct {
	From, To, User string
	Data           []byte
	Secret         bool // came through TLS
}

// Server is a running server. Set its fields before it is used.
type Server struct {
	Host  string
	Port  int
	Roots *x509.CertPool // for its certificate
	PEM   []byte         // the same as a file

	User, Password string // required if not empty
	// Mail, Rcpt and Data are called before an answer. An *smtp.SMTPError is the
	// answer, ErrDrop cuts the connection. Data gets the whole message, which is
	// kept only if it returns nil.
	Mail func(from string) error
	Rcpt func(to string) error
	Data func(to string, data []byte) error
	// Kept is called after a message was kept, before the answer.
	Kept func(m Message) error
	// CutAfter cuts the connection once, after so many bytes of a message.
	CutAfter int64

	smtp     *smtp.Server
	mutex    sync.Mutex
	messages []Message
	sessions int
}

// ErrDrop cuts the connection.
var ErrDrop = errors.New("drop")

// Answer returns an answer of the server.
func Answer(code int, text string) error {
	return &smtp.SMTPError{Code: code, EnhancedCode: smtp.NoEnhancedCode, Message: text}
}

// Start starts a server that stops with the test.
func Start(t testing.TB, secrecy Secrecy) *Server {
	t.Helper()
	s := &Server{Host: "127.0.0.1"}
	certificate := s.certificate()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s.Port = listener.Addr().(*net.TCPAddr).Port
	server := smtp.NewServer(smtp.BackendFunc(func(c *smtp.Conn) (smtp.Session, error) {
		s.mutex.Lock()
		defer s.mutex.Unlock()
		s.sessions++
		return &session{server: s, conn: c}, nil
	}))
	s.smtp = server
	server.Domain = "mail.quillhaven.example"
	server.ErrorLog = silent{}
	heard := &commands{}
	server.Debug = heard
	settings := &tls.Config{Certificates: []tls.Certificate{certificate}, MinVersion: tls.VersionTLS12}
	switch secrecy {
	case StartTLS:
		server.TLSConfig = settings
	case FromTheStart:
		listener = tls.NewListener(listener, settings)
	}
	go func() { _ = server.Serve(listener) }() // ends with an error when it is closed
	t.Cleanup(func() {
		server.Close()
		for _, line := range heard.wrong() {
			t.Errorf("a strict server refuses %q", line)
		}
	})
	return s
}

// commands records what passes through a server. Its parser takes more than RFC 5321
// allows.
type commands struct {
	mutex sync.Mutex
	text  bytes.Buffer
}

func (c *commands) Write(p []byte) (int, error) {
	c.mutex.Lock()
	defer c.mutex.Unlock()
	return c.text.Write(p)
}

// envelope is the form of the two commands that hold an address (RFC 5321, 4.1.1.2 and
// 4.1.1.3), with parameters such as BODY=8BITMIME.
var envelope = regexp.MustCompile(`^(MAIL FROM|RCPT TO):<[^<>@\s]+@[^<>@\s]+>( [A-Z0-9][A-Z0-9-]*(=[^= \t]+)?)*\r$`)

// wrong returns the commands that a strict server refuses.
func (c *commands) wrong() []string {
	c.mutex.Lock()
	defer c.mutex.Unlock()
	var all []string
	for line := range strings.SplitSeq(c.text.String(), "\n") {
		if (strings.HasPrefix(line, "MAIL ") || strings.HasPrefix(line, "RCPT ")) && !envelope.MatchString(line) {
			all = append(all, line)
		}
	}
	return all
}

// Most sets the most bytes of a message, which the server tells.
func (s *Server) Most(bytes int64) { s.smtp.MaxMessageBytes = bytes }

// Change changes the server's settings while it runs; sessions that begin
// afterwards see them.
func (s *Server) Change(change func()) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	change()
}

type silent struct{}

func (silent) Printf(string, ...any) {}
func (silent) Println(...any)        {}

// certificate takes that of the standard library for tests on this computer.
func (s *Server) certificate() tls.Certificate {
	web := httptest.NewTLSServer(nil)
	defer web.Close()
	s.Roots = x509.NewCertPool()
	s.Roots.AddCert(web.Certificate())
	s.PEM = pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: web.Certificate().Raw})
	return web.TLS.Certificates[0]
}

// Messages returns the kept messages in order.
func (s *Server) Messages() []Message {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	return slices.Clone(s.messages)
}

// Sessions counts the connections so far.
func (s *Server) Sessions() int {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	return s.sessions
}

type session struct {
	server         *Server
	conn           *smtp.Conn
	from, to, user string
}

// answer returns the result of a hook; it cuts the connection for ErrDrop.
func (s *session) answer(err error) error {
	if errors.Is(err, ErrDrop) {
		s.conn.Conn().Close()
	}
	return err
}

func (s *session) AuthMechanisms() []string {
	if s.server.User == "" {
		return nil
	}
	return []string{sasl.Plain}
}

func (s *session) Auth(string) (sasl.Server, error) {
	return sasl.NewPlainServer(func(_, user, password string) error {
		if user != s.server.User || password != s.server.Password {
			return smtp.ErrAuthFailed
		}
		s.user = user
		return nil
	}), nil
}

func (s *session) Mail(from string, _ *smtp.MailOptions) error {
	if s.server.User != "" && s.user == "" {
		return smtp.ErrAuthRequired
	}
	s.from = from
	if s.server.Mail != nil {
		return s.answer(s.server.Mail(from))
	}
	return nil
}

func (s *session) Rcpt(to string, _ *smtp.RcptOptions) error {
	s.to = to
	if s.server.Rcpt != nil {
		return s.answer(s.server.Rcpt(to))
	}
	return nil
}

// cut is CutAfter, once.
func (s *Server) cut() (after int64) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	after, s.CutAfter = s.CutAfter, 0
	return after
}

func (s *session) Data(r io.Reader) error {
	if after := s.server.cut(); after > 0 {
		_, _ = io.CopyN(io.Discard, r, after)
		return s.answer(ErrDrop)
	}
	data, err := io.ReadAll(r)
	if err != nil {
		return err
	}
	if s.server.Data != nil {
		if err := s.server.Data(s.to, data); err != nil {
			return s.answer(err)
		}
	}
	_, secret := s.conn.TLSConnectionState()
	m := Message{From: s.from, To: s.to, User: s.user, Data: data, Secret: secret}
	s.server.mutex.Lock()
	s.server.messages = append(s.server.messages, m)
	s.server.mutex.Unlock()
	if s.server.Kept != nil {
		return s.answer(s.server.Kept(m))
	}
	return nil
}

func (s *session) Reset()        { s.from, s.to = "", "" }
func (s *session) Logout() error { return nil }
