package roster

import "crypto/sha256"

// Fingerprint is the hash of a file's content, to notice a change since it was
// read. Times do not count, because copying or syncing changes them. The zero
// Fingerprint is of no file.
type Fingerprint [sha256.Size]byte
