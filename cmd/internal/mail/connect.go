package mail

import (
	"bufio"
	"cmp"
	"context"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"net/textproto"
	"os"
	"slices"
	"strings"
	"syscall"
	"time"

	gomail "github.com/wneessen/go-mail"
	"github.com/wneessen/go-mail/smtp"
)

// tlsPort is the port on which servers speak TLS from the first byte (RFC 8314,
// 3.3); on others STARTTLS comes first.
const tlsPort = 465

// Timeouts for commands, and for the answer to a message, which a server may check
// first (RFC 5321, 4.5.3.2 asks for ten minutes, too long at a terminal).
const (
	commandTimeout = time.Minute
	messageTimeout = 5 * time.Minute
)

// Server is how to reach a mail server.
type Server struct {
	Host     string
	Port     int
	User     string // empty to send without signing in
	Password string
	Roots    *x509.CertPool // for its certificate; nil for those of the system

	// For tests, whose servers have other ports, names and clocks.
	tlsFirst bool
	now      func() time.Time
	dial     gomail.DialContextFunc
	greeting time.Duration // 0 for greetingTimeout
}

// isLoopback reports whether a host is this computer. No other host gets a message
// without TLS.
func isLoopback(host string) bool {
	ip := net.ParseIP(host)
	return strings.EqualFold(host, "localhost") || ip != nil && ip.IsLoopback()
}

// Patience while a connection is made.
const (
	dialTimeout     = 10 * time.Second
	greetingTimeout = 5 * time.Second // then the port may be one that waits for TLS
	openTimeout     = 20 * time.Second
)

// errSilent is the error of a port that sends no greeting.
var errSilent = errors.New("it sends no greeting")

// connect opens a connection and signs in. A port that sends no greeting is tried with
// TLS from the start.
func (s *Server) connect(ctx context.Context) (*smtp.Client, error) {
	client, err := s.open(ctx, s.Port == tlsPort || s.tlsFirst)
	if errors.Is(err, errSilent) {
		if client, err = s.open(ctx, true); err == nil || ctx.Err() != nil {
			s.tlsFirst = err == nil
			return client, err
		}
		err = fmt.Errorf("%w, without TLS or with it: %w", errSilent, err)
	}
	if err != nil {
		return nil, s.explain(err)
	}
	return client, nil
}

// open opens a connection and signs in. It returns at once when ctx ends.
func (s *Server) open(ctx context.Context, tlsFirst bool) (*smtp.Client, error) {
	policy := gomail.TLSMandatory
	if isLoopback(s.Host) {
		policy = gomail.TLSOpportunistic
	}
	options := []gomail.Option{gomail.WithPort(s.Port), gomail.WithTimeout(openTimeout), gomail.WithTLSPolicy(policy),
		gomail.WithTLSConfig(&tls.Config{ServerName: s.Host, RootCAs: s.Roots, MinVersion: tls.VersionTLS12, Time: s.now}),
		// Hides the name of this computer.
		gomail.WithHELO("[127.0.0.1]")}
	if tlsFirst {
		options = append(options, gomail.WithSSL())
	} else {
		options = append(options, gomail.WithDialContextFunc(s.dialGreeted))
	}
	if s.User != "" {
		options = append(options, gomail.WithSMTPAuth(gomail.SMTPAuthAutoDiscover), gomail.WithUsername(s.User), gomail.WithPassword(s.Password))
	}
	dialer, err := gomail.NewClient(s.Host, options...)
	if err != nil {
		return nil, err
	}
	type result struct {
		client *smtp.Client
		err    error
	}
	done := make(chan result, 1)
	go func() {
		client, err := dialer.DialToSMTPClientWithContext(ctx)
		done <- result{client, err}
	}()
	select {
	case r := <-done:
		return r.client, r.err
	case <-ctx.Done():
		go func() {
			if r := <-done; r.err == nil {
				_ = r.client.Close()
			}
		}()
		return nil, ctx.Err()
	}
}

// dialGreeted connects and waits for the first byte of the greeting.
func (s *Server) dialGreeted(ctx context.Context, network, address string) (net.Conn, error) {
	ctx, cancel := context.WithTimeout(ctx, dialTimeout)
	defer cancel()
	dial := s.dial
	if dial == nil {
		dial = new(net.Dialer).DialContext
	}
	conn, err := dial(ctx, network, address)
	if err != nil {
		return nil, err
	}
	greeted := &greetedConn{conn, bufio.NewReader(conn)}
	if err = conn.SetReadDeadline(time.Now().Add(cmp.Or(s.greeting, greetingTimeout))); err == nil {
		_, err = greeted.reader.Peek(1)
	}
	if errors.Is(err, os.ErrDeadlineExceeded) {
		err = errSilent
	}
	if err != nil {
		conn.Close()
		return nil, err
	}
	return greeted, nil
}

// greetedConn is a connection with the first bytes of its greeting read ahead.
type greetedConn struct {
	net.Conn
	reader *bufio.Reader
}

func (c *greetedConn) Read(p []byte) (int, error) { return c.reader.Read(p) }

// Errors that end a run, because they concern every message.
var (
	errSignIn      = errors.New("the mail server does not accept this user and password")
	errOpenLine    = errors.New("the mail server on this computer offers no sign-in with encryption, and no password is sent without it; leave out --user, or switch on TLS there")
	errNoTLS       = errors.New("the mail server offers no encryption (STARTTLS), and nothing is sent to another computer without it")
	errNotTLS      = errors.New("the port does not begin with TLS; servers that switch to it later mostly listen on port 587")
	errCertificate = errors.New("the mail server's certificate does not prove its identity")
	errSender      = errors.New("the mail server does not send from this address")
	errAllRefused  = errors.New("the mail server refused all the first messages, so their addresses are hardly the cause")
	errUnreachable = errors.New("the mail server cannot be reached")
)

// explain names the cause of an error while connecting.
func (s *Server) explain(err error) error {
	var code *textproto.Error
	var unknown x509.UnknownAuthorityError
	var host x509.HostnameError
	var invalid x509.CertificateInvalidError
	var check *tls.CertificateVerificationError
	var record tls.RecordHeaderError
	var name *net.DNSError
	noAuth := errors.Is(err, gomail.ErrNoSupportedAuthDiscovered) || strings.Contains(err.Error(), "does not support SMTP AUTH")
	switch {
	case noAuth && isLoopback(s.Host) && !s.tlsFirst && s.Port != tlsPort:
		return errOpenLine
	case errors.As(err, &code) && code.Code/100 == 5 && s.User != "", noAuth:
		return fmt.Errorf("%w: %w", errSignIn, err)
	case strings.Contains(err.Error(), "does not support STARTTLS"):
		return errNoTLS
	case errors.As(err, &record):
		return errNotTLS
	case errors.As(err, &invalid) && invalid.Reason == x509.Expired:
		return fmt.Errorf("%w; check this computer's date (%w)", errCertificate, err)
	case errors.As(err, &check) && errors.As(err, &unknown) && len(check.UnverifiedCertificates) > 0:
		return fmt.Errorf("%w: %w. If the organisation signs its own, get its root certificate as a file from whoever runs the server and give it with --smtp-ca; the SHA-256 fingerprint of what the server showed is %s",
			errCertificate, unknown, fingerprint(check.UnverifiedCertificates))
	case errors.As(err, &unknown), errors.As(err, &host), errors.As(err, &invalid), errors.As(err, &check):
		return fmt.Errorf("%w: %w", errCertificate, err)
	case errors.As(err, &name):
		return fmt.Errorf("no computer is called %s; check the name and the network", s.Host)
	case errors.Is(err, syscall.ECONNREFUSED):
		return fmt.Errorf("nothing answers at port %d of %s; check the port, mostly 587 or 465", s.Port, s.Host)
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, os.ErrDeadlineExceeded):
		return fmt.Errorf("no answer from port %d of %s; check name and port, a firewall may close it", s.Port, s.Host)
	}
	return err
}

// fingerprint is that of the last certificate of a chain, as tools print it.
func fingerprint(chain []*x509.Certificate) string {
	sum := sha256.Sum256(chain[len(chain)-1].Raw)
	return strings.ReplaceAll(fmt.Sprintf("% X", sum), " ", ":")
}

// isFinal reports whether a further attempt to connect cannot help.
func isFinal(err error) bool {
	return slices.ContainsFunc([]error{errSignIn, errOpenLine, errNoTLS, errNotTLS, errCertificate}, func(final error) bool { return errors.Is(err, final) })
}
