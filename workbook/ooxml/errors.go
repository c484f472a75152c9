package ooxml

import "tenback/workbook/opc"

// The kinds of failure. Every [*Error] wraps one of them.
var (
	ErrEmpty       = opc.ErrEmpty
	ErrLocked      = opc.ErrLocked
	ErrNotWorkbook = opc.ErrNotWorkbook
	ErrDamaged     = opc.ErrDamaged
	ErrLimit       = opc.ErrLimit
	ErrUnsupported = opc.ErrUnsupported
)

// Error is why a workbook, or a sheet of it, can't be read.
type Error = opc.Error
