package photo

import (
	"bytes"
	"encoding/binary"
)

// orientation returns how a camera was held, 1 to 8, by the Exif data of a JPEG or PNG; 1 where none
// is readable. Only this one tag is looked at.
func orientation(data []byte) int {
	block := exifOfJPEG(data)
	if block == nil {
		block = exifOfPNG(data)
	}
	return tagOrientation(block)
}

// exifOfJPEG returns the TIFF block of the first Exif segment (ISO/IEC 10918-1 markers; Exif in APP1).
func exifOfJPEG(data []byte) []byte {
	if len(data) < 2 || data[0] != 0xFF || data[1] != 0xD8 {
		return nil
	}
	for at := 2; at+4 <= len(data) && data[at] == 0xFF; {
		marker := data[at+1]
		if marker == 0xFF { // a filling byte before a marker
			at++
			continue
		}
		n := int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == 0xDA || n < 2 || at+2+n > len(data) { // the pixels begin
			return nil
		}
		segment := data[at+4 : at+2+n]
		if block, ok := bytes.CutPrefix(segment, []byte("Exif\x00\x00")); ok && marker == 0xE1 {
			return block
		}
		at += 2 + n
	}
	return nil
}

// exifOfPNG returns the content of the eXIf chunk (ISO/IEC 15948, third edition).
func exifOfPNG(data []byte) []byte {
	data, ok := bytes.CutPrefix(data, []byte("\x89PNG\r\n\x1a\n"))
	for ok && len(data) >= 12 {
		n := uint64(binary.BigEndian.Uint32(data))
		if n+12 > uint64(len(data)) {
			return nil
		}
		if string(data[4:8]) == "eXIf" {
			return data[8 : 8+n]
		}
		data = data[12+n:]
	}
	return nil
}

// tagOrientation reads tag 0x0112 in the first directory of a TIFF block (TIFF 6.0, section 2).
func tagOrientation(block []byte) int {
	if len(block) < 8 {
		return 1
	}
	var order binary.ByteOrder
	switch string(block[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 1
	}
	at := uint64(order.Uint32(block[4:]))
	if at+2 > uint64(len(block)) {
		return 1
	}
	rows := block[at+2:]
	for range order.Uint16(block[at:]) {
		if len(rows) < 12 {
			return 1
		}
		const short = 3
		if order.Uint16(rows) == 0x0112 && order.Uint16(rows[2:]) == short {
			if how := int(order.Uint16(rows[8:])); how >= 1 && how <= 8 {
				return how
			}
			return 1
		}
		rows = rows[12:]
	}
	return 1
}
