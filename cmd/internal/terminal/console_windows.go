package terminal

import (
	"fmt"
	"io"
	"os"
	"unsafe"

	"golang.org/x/sys/windows"
	"golang.org/x/term"
)

// StayOpen waits for a key if the window belongs to this program alone, as after
// dropping a workbook on it, because the window closes with the program.
func StayOpen(out io.Writer) {
	fd := int(os.Stdin.Fd())
	if !ownWindow() || !term.IsTerminal(fd) {
		return
	}
	fmt.Fprint(out, "\nPress any key to close this window. ")
	state, err := term.MakeRaw(fd)
	if err != nil {
		return
	}
	_, _ = os.Stdin.Read(make([]byte, 1)) // any key will do
	_ = term.Restore(fd, state)
}

// ownWindow reports whether no other program uses the window.
func ownWindow() bool {
	var programs [2]uint32
	list := windows.NewLazySystemDLL("kernel32.dll").NewProc("GetConsoleProcessList")
	if list.Find() != nil {
		return false
	}
	n, _, _ := list.Call(uintptr(unsafe.Pointer(&programs[0])), uintptr(len(programs)))
	return n == 1
}
