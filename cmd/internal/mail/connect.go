package mail

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"net/textproto"
	"strings"
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
}

// isLoopback reports whether a host is this computer. No other host gets a message
// without TLS.
func isLoopback(host string) bool {
	ip := net.ParseIP(host)
	return strings.EqualFold(host, "localhost") || ip != nil && ip.IsLoopback()
}

// connect opens a connection and signs in.
func (s *Server) connect(ctx context.Context) (*smtp.Client, error) {
	policy := gomail.TLSMandatory
	if isLoopback(s.Host) {
		policy = gomail.TLSOpportunistic
	}
	options := []gomail.Option{gomail.WithPort(s.Port), gomail.WithTimeout(commandTimeout), gomail.WithTLSPolicy(policy),
		gomail.WithTLSConfig(&tls.Config{ServerName: s.Host, RootCAs: s.Roots, MinVersion: tls.VersionTLS12, Time: s.now}),
		// Hides the name of this computer.
		gomail.WithHELO("[127.0.0.1]")}
	if s.Port == tlsPort || s.tlsFirst {
		options = append(options, gomail.WithSSL())
	}
	if s.dial != nil {
		options = append(options, gomail.WithDialContextFunc(s.dial))
	}
	if s.User != "" {
		options = append(options, gomail.WithSMTPAuth(gomail.SMTPAuthAutoDiscover), gomail.WithUsername(s.User), gomail.WithPassword(s.Password))
	}
	dialer, err := gomail.NewClient(s.Host, options...)
	if err != nil {
		return nil, err
	}
	client, err := dialer.DialToSMTPClientWithContext(ctx)
	if err != nil {
		return nil, s.explain(err)
	}
	return client, nil
}

// Errors that end a run, because they concern every message.
var (
	errSignIn      = errors.New("the mail server does not accept this user and password")
	errNoTLS       = errors.New("the mail server offers no encryption (STARTTLS), and nothing is sent to another computer without it")
	errCertificate = errors.New("the mail server's certificate does not prove its identity")
	errSender      = errors.New("the mail server does not send from this address")
	errAllRefused  = errors.New("the mail server refused all the first messages, so their addresses are hardly the cause")
	errUnreachable = errors.New("the mail server cannot be reached")
)

// explain wraps the errors that a further attempt cannot change.
func (s *Server) explain(err error) error {
	var code *textproto.Error
	var unknown x509.UnknownAuthorityError
	var host x509.HostnameError
	var invalid x509.CertificateInvalidError
	var check *tls.CertificateVerificationError
	switch {
	case errors.As(err, &code) && code.Code/100 == 5 && s.User != "", errors.Is(err, gomail.ErrNoSupportedAuthDiscovered), strings.Contains(err.Error(), "does not support SMTP AUTH"):
		return fmt.Errorf("%w: %w", errSignIn, err)
	case strings.Contains(err.Error(), "does not support STARTTLS"):
		return errNoTLS
	case errors.As(err, &invalid) && invalid.Reason == x509.Expired:
		return fmt.Errorf("%w; check this computer's date (%w)", errCertificate, err)
	case errors.As(err, &unknown), errors.As(err, &host), errors.As(err, &invalid), errors.As(err, &check):
		return fmt.Errorf("%w: %w", errCertificate, err)
	}
	return err
}

// isFinal reports whether a further attempt to connect cannot help.
func isFinal(err error) bool {
	return errors.Is(err, errSignIn) || errors.Is(err, errNoTLS) || errors.Is(err, errCertificate)
}
