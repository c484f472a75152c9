package main

import (
	"fmt"
	"io"
	"os"
	"unsafe"

	"golang.org/x/sys/windows"
	"golang.org/x/term"
)

// stayOpen waits for a key where the window is the program's own, as it is when
// a workbook was dropped on the program: else the window is gone before anyone
// has read what it says.
func stayOpen(out io.Writer) {
	fd := int(os.Stdin.Fd())
	if !ownWindow() || !term.IsTerminal(fd) {
		return
	}
	fmt.Fprint(out, "\nPress any key to close this window. ")
	state, err := term.MakeRaw(fd)
	if err != nil {
		return
	}
	_, _ = os.Stdin.Read(make([]byte, 1)) // whatever comes, the window may go
	_ = term.Restore(fd, state)
}

// ownWindow tells whether no other program uses the window.
func ownWindow() bool {
	var programs [2]uint32
	list := windows.NewLazySystemDLL("kernel32.dll").NewProc("GetConsoleProcessList")
	if list.Find() != nil {
		return false
	}
	n, _, _ := list.Call(uintptr(unsafe.Pointer(&programs[0])), uintptr(len(programs)))
	return n == 1
}
