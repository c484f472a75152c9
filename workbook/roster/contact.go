package roster

// Contact is how a person can be reached, as typed and not checked.
type Contact struct {
	Email    Typed
	Guardian Typed // e-mail address of a parent or guardian
	Password Typed // of the person's page
}

// Typed is a text and its cell, such as "Class 8B!F7"; both are empty if not
// given.
type Typed struct {
	Text, Cell string
	// Other is a cell of the same person with another text; empty if there is
	// none.
	Other string
	// IsDate is set where the spreadsheet turned the text into a date: Text is
	// that date, and what was typed is lost.
	IsDate bool
}

// also merges what another cell says of the same.
func (t *Typed) also(other Typed) {
	switch {
	case other.Text == "":
	case t.Text == "":
		*t = other
	case t.Other != "":
	case t.Text != other.Text:
		t.Other = other.Cell
	default:
		t.Other = other.Other
	}
}

// Reached returns the person's contact; the zero Contact if nothing of it is given.
func (p *Person) Reached() Contact {
	if p.Contact == nil {
		return Contact{}
	}
	return *p.Contact
}

// ReachedAlso merges the contact of another row. Rows share a contact, so it is
// copied first.
func (p *Person) ReachedAlso(other *Contact) {
	if other == nil {
		return
	}
	c := p.Reached()
	c.Email.also(other.Email)
	c.Guardian.also(other.Guardian)
	c.Password.also(other.Password)
	p.Contact = &c
}
