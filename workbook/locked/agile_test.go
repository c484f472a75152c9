package locked

import (
	"bytes"
	"cmp"
	"crypto/aes"
	"crypto/cipher"
	"crypto/hmac"
	"crypto/sha512"
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"tenback/workbook/opc"
)

// agile locks a workbook in the Agile scheme, AES-256 and SHA-512, after
// [MS-OFFCRYPTO] 2.3.4.10 to 2.3.4.15. The random parts come from a fixed
// seed, so that the file is always the same.
func agile(t testing.TB, plain []byte, password string) []byte {
	t.Helper()
	const spins = 1000 // 100,000 in earnest
	source := rand.NewChaCha8([32]byte{7})
	random := func(n int) []byte {
		b := make([]byte, n)
		_, _ = source.Read(b) // never fails: the source is a generator
		return b
	}
	hash := func(parts ...[]byte) []byte {
		sum := sha512.Sum512(bytes.Join(parts, nil))
		return sum[:]
	}
	number := func(n int) []byte { return binary.LittleEndian.AppendUint32(nil, uint32(n)) }
	encrypt := func(key, iv, data []byte) []byte {
		data = append(bytes.Clone(data), make([]byte, (16-len(data)%16)%16)...)
		block, err := aes.NewCipher(key)
		if err != nil {
			t.Fatal(err)
		}
		cipher.NewCBCEncrypter(block, iv[:16]).CryptBlocks(data, data)
		return data
	}
	text := base64.StdEncoding.EncodeToString

	keySalt, passSalt, packageKey := random(16), random(16), random(32)
	var letters []byte
	for _, c := range utf16.Encode([]rune(password)) {
		letters = binary.LittleEndian.AppendUint16(letters, c)
	}
	h := hash(passSalt, letters)
	for i := range spins {
		h = hash(number(i), h)
	}
	sealed := func(blockKey string, data []byte) string {
		return text(encrypt(hash(h, []byte(blockKey))[:32], passSalt, data))
	}

	content := binary.LittleEndian.AppendUint64(nil, uint64(len(plain)))
	for i := 0; i*4096 < len(plain); i++ {
		content = append(content, encrypt(packageKey, hash(keySalt, number(i)), plain[i*4096:min(len(plain), (i+1)*4096)])...)
	}
	verifier, macKey := random(16), random(64)
	mac := hmac.New(sha512.New, macKey)
	mac.Write(content)
	info := append(number(0x00040004), number(0x40)...)
	info = fmt.Appendf(info, `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`+"\r\n"+
		`<encryption xmlns="http://schemas.microsoft.com/office/2006/encryption" xmlns:p="http://schemas.microsoft.com/office/2006/keyEncryptor/password">`+
		`<keyData saltSize="16" blockSize="16" keyBits="256" hashSize="64" cipherAlgorithm="AES" cipherChaining="ChainingModeCBC" hashAlgorithm="SHA512" saltValue="%s"/>`+
		`<dataIntegrity encryptedHmacKey="%s" encryptedHmacValue="%s"/>`+
		`<keyEncryptors><keyEncryptor uri="http://schemas.microsoft.com/office/2006/keyEncryptor/password">`+
		`<p:encryptedKey spinCount="%d" saltSize="16" blockSize="16" keyBits="256" hashSize="64" cipherAlgorithm="AES" cipherChaining="ChainingModeCBC" hashAlgorithm="SHA512" saltValue="%s" `+
		`encryptedVerifierHashInput="%s" encryptedVerifierHashValue="%s" encryptedKeyValue="%s"/></keyEncryptor></keyEncryptors></encryption>`,
		text(keySalt),
		text(encrypt(packageKey, hash(keySalt, []byte("\x5f\xb2\xad\x01\x0c\xb9\xe1\xf6")), macKey)),
		text(encrypt(packageKey, hash(keySalt, []byte("\xa0\x67\x7f\x02\xb2\x2c\x84\x33")), mac.Sum(nil))),
		spins, text(passSalt),
		sealed("\xfe\xa7\xd2\x76\x3b\x4b\x9e\x79", verifier),
		sealed("\xd7\xaa\x0f\x6d\x30\x61\x34\x4e", hash(verifier)),
		sealed("\x14\x6e\x0b\xe7\xab\xac\xd0\xd6", packageKey))
	return container(t, map[string][]byte{"EncryptionInfo": info, "EncryptedPackage": content})
}

// container makes a compound file, with sectors of 512 bytes, of streams. Each
// is filled up to a size at which it needs no mini stream.
func container(t testing.TB, streams map[string][]byte) []byte {
	t.Helper()
	const sector, end, none = 512, 0xFFFFFFFE, 0xFFFFFFFF
	names := slices.SortedFunc(maps.Keys(streams), func(a, b string) int { return cmp.Compare(len(a), len(b)) }) // as the format asks
	var body []byte
	var fat []uint32
	chain := func(data []byte) (start uint32) {
		start = uint32(len(fat))
		n := (len(data) + sector - 1) / sector
		for i := range n {
			next := start + uint32(i) + 1
			if i == n-1 {
				next = end
			}
			fat = append(fat, next)
		}
		body = append(body, data...)
		body = append(body, make([]byte, n*sector-len(data))...)
		return start
	}
	var directory []byte
	entry := func(name string, kind byte, right, child, start uint32, size int) {
		var e [128]byte
		for i, c := range utf16.Encode([]rune(name)) {
			binary.LittleEndian.PutUint16(e[2*i:], c)
		}
		binary.LittleEndian.PutUint16(e[64:], uint16(2*len(name)+2))
		e[66], e[67] = kind, 1
		binary.LittleEndian.PutUint32(e[68:], none)
		binary.LittleEndian.PutUint32(e[72:], right)
		binary.LittleEndian.PutUint32(e[76:], child)
		binary.LittleEndian.PutUint32(e[116:], start)
		binary.LittleEndian.PutUint64(e[120:], uint64(size))
		directory = append(directory, e[:]...)
	}
	entry("Root Entry", 5, none, 1, end, 0)
	for i, name := range names {
		data := streams[name]
		if len(data) < 4096 {
			data = append(bytes.Clone(data), bytes.Repeat([]byte{' '}, 4096-len(data))...)
			if name == "EncryptedPackage" {
				t.Fatal("the workbook is too small for this container")
			}
		}
		right := uint32(none)
		if i+1 < len(names) {
			right = uint32(i + 2)
		}
		entry(name, 2, right, none, chain(data), len(data))
	}
	directoryAt := chain(directory)
	fatSectors := (len(fat) + 127) / 127
	if fatSectors > 109 {
		t.Fatal("the workbook is too large for this container")
	}
	head := make([]byte, sector)
	copy(head, opc.Magic)
	le16 := func(at int, x uint16) { binary.LittleEndian.PutUint16(head[at:], x) }
	le32 := func(at int, x uint32) { binary.LittleEndian.PutUint32(head[at:], x) }
	le16(24, 0x3E)
	le16(26, 3)
	le16(28, 0xFFFE)
	le16(30, 9)
	le16(32, 6)
	le32(44, uint32(fatSectors))
	le32(48, directoryAt)
	le32(56, 4096)
	le32(60, end)
	le32(68, end)
	for i := range 109 {
		at := uint32(none)
		if i < fatSectors {
			at = uint32(len(fat))
			fat = append(fat, 0xFFFFFFFD)
		}
		le32(76+4*i, at)
	}
	for len(fat) < fatSectors*128 {
		fat = append(fat, none)
	}
	out := append(head, body...)
	for _, x := range fat {
		out = binary.LittleEndian.AppendUint32(out, x)
	}
	return out
}

// sample is a small workbook as plain bytes.
func sample(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for i, row := range [][]any{
		{"Name", "Sex", "Age", "1.5 mile run", "Resting HR"},
		{"Ida Calloway", "F", 40, "12:30", 64},
		{"Wren Otterburn", "M", 51, "13:30", 71},
	} {
		if err := f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &row); err != nil {
			t.Fatal(err)
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
