package sheet

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// held is a picture, white above and black below, with an Exif part that says how the camera was
// held and where.
func held(t *testing.T, orientation uint16) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 64, 32))
	for y := range 16 {
		for x := range 64 {
			img.SetGray(x, y, color.Gray{255})
		}
	}
	var plain bytes.Buffer
	require.NoError(t, jpeg.Encode(&plain, img, nil))
	tiff := binary.BigEndian.AppendUint32([]byte("MM\x00\x2a"), 8)
	tiff = binary.BigEndian.AppendUint16(tiff, 1)
	for _, v := range []uint16{274, 3, 0, 1, orientation, 0} {
		tiff = binary.BigEndian.AppendUint16(tiff, v)
	}
	part := append([]byte("Exif\x00\x00"), append(tiff, "GPS 48.1 N 11.5 E"...)...)
	out := append([]byte{0xff, 0xd8, 0xff, 0xe1}, binary.BigEndian.AppendUint16(nil, uint16(len(part)+2))...)
	return append(append(out, part...), plain.Bytes()[2:]...)
}

// TestPicturesStandUprightAndTellNoPlace checks the orientations of Exif 2.32, tag 274: the edge of the
// stored picture that its first row shows is named by each.
func TestPicturesStandUprightAndTellNoPlace(t *testing.T) {
	for orientation, white := range map[uint16]image.Point{1: {32, 2}, 3: {32, 29}, 6: {29, 32}, 8: {2, 32}, 5: {2, 32}, 7: {29, 32}, 2: {32, 2}, 4: {32, 29}, 99: {32, 2}} {
		file := held(t, orientation)
		require.Contains(t, string(file), "GPS")
		ready, err := Picture{Bytes: file}.ready()
		require.NoError(t, err)
		assert.NotContains(t, string(ready.bytes), "GPS")
		assert.NotContains(t, string(ready.bytes), "Exif")
		img, err := jpeg.Decode(bytes.NewReader(ready.bytes))
		require.NoError(t, err)
		light, _, _, _ := img.At(white.X, white.Y).RGBA()
		assert.Greater(t, light, uint32(0xe000), "orientation %d", orientation)
	}
}

func TestWhatIsNoPictureIsNamed(t *testing.T) {
	cut := held(t, 1)
	for want, p := range map[string]Picture{
		"no picture given":                        {},
		"a.jpg is not in the book":                {Missing: "a.jpg is not in the book"},
		"the file is no PNG or JPEG picture":      {Bytes: []byte("GIF89a")},
		"the picture is damaged":                  {Bytes: cut[:len(cut)-20]},
		"the picture is too large: 65000 x 65000": {Bytes: huge()},
	} {
		_, err := p.ready()
		assert.EqualError(t, err, want)
	}
}

// huge says it has more pixels than any memory holds.
func huge() []byte {
	return []byte("\xff\xd8\xff\xc0\x00\x11\x08\xfd\xe8\xfd\xe8\x03\x01\x11\x00\x02\x11\x01\x03\x11\x01\xff\xda\x00\x0c\x03\x01\x00\x02\x11\x03\x11\x00\x3f\x00")
}
