package safefile

import (
	"os"
	"path/filepath"
	"sync"
)

// Group writes many files into one folder from several goroutines. Forcing a
// file to the disk takes longer than making a page; what several goroutines
// write at the same time is forced there together. Each file is as safe as with
// WriteBytes. The zero value is ready for use, for the files of one folder.
type Group struct {
	mu      sync.Mutex
	joining *flight // takes files until the one before it is done
	flying  sync.Mutex
}

// flight is files that go to the disk together.
type flight struct {
	files []*Pending
	errs  []error
	done  chan struct{}
}

// WriteBytes makes or replaces the file at path with the bytes, and returns when
// it is on the disk.
func (g *Group) WriteBytes(path string, data []byte) error {
	p, err := Create(path)
	if err != nil {
		return err
	}
	defer p.Discard()
	if _, err := p.Write(data); err != nil {
		return err
	}
	g.mu.Lock()
	if g.joining == nil {
		g.joining = &flight{done: make(chan struct{})}
	}
	f := g.joining
	seat := len(f.files)
	f.files = append(f.files, p)
	g.mu.Unlock()
	if seat == 0 { // the first takes all to the disk
		g.flying.Lock()
		g.mu.Lock()
		g.joining = nil
		g.mu.Unlock()
		f.fly()
		g.flying.Unlock()
		close(f.done)
	}
	<-f.done
	return f.errs[seat]
}

// fly commits the files.
func (f *flight) fly() {
	folder := filepath.Dir(f.files[0].target)
	if len(f.files) > 1 {
		hasten(folder)
	}
	for _, p := range f.files {
		f.errs = append(f.errs, p.place(func() error { return os.Rename(p.Name(), p.target) }))
	}
	syncFolder(folder)
	for _, p := range f.files {
		if other := filepath.Dir(p.target); other != folder { // a link led elsewhere
			syncFolder(other)
		}
	}
}
