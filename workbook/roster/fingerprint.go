package roster

import "crypto/sha256"

// Fingerprint identifies the content of a file, to notice a change since it was
// read. It is of the content alone: copying or syncing a folder changes the times.
// The zero Fingerprint is of no file.
type Fingerprint [sha256.Size]byte
