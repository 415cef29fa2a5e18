package report_test

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/report"
	"jobday/sheet"
)

// scene is a picture with its top left quarter red, its top right green and the rest white.
func scene(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{255, 255, 255, 255}
			switch {
			case y < h/2 && x < w/2:
				c = color.RGBA{220, 0, 0, 255}
			case y < h/2:
				c = color.RGBA{0, 180, 0, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

// withExif is a JPEG with an orientation and a place in its Exif data.
func withExif(t *testing.T, img image.Image, how int) []byte {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, nil))
	tiff := []byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00")
	tiff = append(tiff, byte(how), 0, 0, 0, 0, 0, 0)
	block := append([]byte("Exif\x00\x00"), append(tiff, "GPS 47.6097N 122.3331W"...)...)
	segment := binary.BigEndian.AppendUint16([]byte{0xFF, 0xE1}, uint16(len(block)+2))
	return append(append(append([]byte{0xFF, 0xD8}, segment...), block...), b.Bytes()[2:]...)
}

// stored is the scene as a camera stores it when held so that the orientation sets it upright again:
// pixel (x, y) as stored shows pixel at(x, y) of the scene. From the names of the rows and columns
// in CIPA DC-008, tag Orientation.
func stored(how int, upright *image.RGBA) *image.RGBA {
	w, h := upright.Bounds().Dx(), upright.Bounds().Dy()
	size := image.Rect(0, 0, w, h)
	if how >= 5 {
		size = image.Rect(0, 0, h, w)
	}
	at := map[int]func(row, col int) (x, y int){
		1: func(r, c int) (int, int) { return c, r },                 // top, left
		2: func(r, c int) (int, int) { return w - 1 - c, r },         // top, right
		3: func(r, c int) (int, int) { return w - 1 - c, h - 1 - r }, // bottom, right
		4: func(r, c int) (int, int) { return c, h - 1 - r },         // bottom, left
		5: func(r, c int) (int, int) { return r, c },                 // left, top
		6: func(r, c int) (int, int) { return w - 1 - r, c },         // right, top
		7: func(r, c int) (int, int) { return w - 1 - r, h - 1 - c }, // right, bottom
		8: func(r, c int) (int, int) { return r, h - 1 - c },         // left, bottom
	}[how]
	img := image.NewRGBA(size)
	for y := range size.Dy() {
		for x := range size.Dx() {
			img.SetRGBA(x, y, upright.RGBAAt(at(y, x)))
		}
	}
	return img
}

func TestPhotoIsUprightSmallAndWithoutPlace(t *testing.T) {
	for how := 1; how <= 8; how++ {
		data := withExif(t, stored(how, scene(1200, 800)), how)
		small, w, h, err := report.ScaledPhoto(data)
		require.NoError(t, err)
		assert.Equal(t, []int{900, 600}, []int{w, h}, "orientation %d", how)
		img, err := jpeg.Decode(bytes.NewReader(small))
		require.NoError(t, err)
		r, g, b, _ := img.At(200, 150).RGBA()
		assert.True(t, r > 0xB000 && g < 0x3000 && b < 0x3000, "orientation %d: top left is red", how)
		r, g, _, _ = img.At(700, 150).RGBA()
		assert.True(t, g > 0x9000 && r < 0x3000, "orientation %d: top right is green", how)
		assert.NotContains(t, string(small), "GPS")
		assert.NotContains(t, string(small), "Exif")
		again, _, _, err := report.ScaledPhoto(data)
		require.NoError(t, err)
		assert.Equal(t, small, again)
	}
	small, w, h, err := report.ScaledPhoto(withExif(t, scene(40, 20), 9)) // no such orientation
	require.NoError(t, err)
	assert.Equal(t, []int{40, 20}, []int{w, h}, "never scaled up")
	assert.NotEmpty(t, small)
}

// frame is a PNG that says it has this many pixels and brings none.
func frame(w, h uint32) []byte {
	head := append(binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32([]byte("IHDR"), w), h), 8, 2, 0, 0, 0)
	b := binary.BigEndian.AppendUint32([]byte("\x89PNG\r\n\x1a\n"), uint32(len(head)-4))
	return binary.BigEndian.AppendUint32(append(b, head...), crc32.ChecksumIEEE(head))
}

func TestPhotoThatIsNone(t *testing.T) {
	var sound bytes.Buffer
	require.NoError(t, png.Encode(&sound, scene(60, 40)))
	for name, c := range map[string]struct {
		data []byte
		want error
	}{
		"empty":    {nil, report.ErrPhotoKind},
		"page":     {[]byte("<html><script>alert(1)</script>"), report.ErrPhotoKind},
		"drawing":  {[]byte(`<svg xmlns="http://www.w3.org/2000/svg"/>`), report.ErrPhotoKind},
		"other":    {[]byte("GIF89a\x01\x00\x01\x00"), report.ErrPhotoKind},
		"cut":      {sound.Bytes()[:60], report.ErrPhotoBroken},
		"head":     {[]byte("\x89PNG\r\n\x1a\n"), report.ErrPhotoBroken},
		"bomb":     {frame(60000, 60000), report.ErrPhotoPixels},
		"just big": {frame(50_000_001, 1), report.ErrPhotoPixels},
		"heavy":    {make([]byte, report.MaxPhotoBytes+1), report.ErrPhotoBytes},
	} {
		uri, err := report.PhotoURI(c.data)
		assert.ErrorIs(t, err, c.want, name)
		assert.Empty(t, uri, name)
	}
}

func FuzzScaledPhoto(f *testing.F) {
	var b bytes.Buffer
	require.NoError(f, png.Encode(&b, scene(8, 6)))
	f.Add(b.Bytes())
	f.Add([]byte("\xFF\xD8\xFF\xE1\x00\x10Exif\x00\x00II*\x00\xFF\xFF\xFF\xFF"))
	f.Fuzz(func(t *testing.T, data []byte) {
		small, _, _, err := report.ScaledPhoto(data)
		require.Equal(t, err == nil, len(small) > 0)
	})
}

// The notice and the day's report show the photo in themselves, or say in its place why not.
func TestPhotoOnPages(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, scene(60, 40)))
	read := report.Pictures(func(path string) ([]byte, error) {
		if path == "photos/cooler-1.jpg" { // a PNG by its content
			return b.Bytes(), nil
		}
		return nil, errors.New("no such file")
	})
	j := quay()
	j.Days[2].Deficiencies[2].Photo = []string{"photos/cooler-1.jpg", "photos/<b>gone.jpg"}
	j.Photos = read
	n, err := report.NewNotice(nil, j, notes.MustDate("2026-03-13"))
	require.NoError(t, err)
	var notice, day bytes.Buffer
	require.NoError(t, sheet.HTML(&notice, n.Sheet()))
	require.NoError(t, report.HTML(&day, report.Input{Day: j.Days[2], Photos: read}))
	for page, lost := range map[string]string{
		notice.String(): "(no such file)</p><figcaption dir=\"auto\"><span class=\"soft\">photos/&lt;b&gt;gone.jpg",
		day.String():    "photos/&lt;b&gt;gone.jpg</bdi>; photo not shown: no such file",
	} {
		_, rest, ok := strings.Cut(page, `<img src="data:image/`)
		require.True(t, ok)
		_, rest, _ = strings.Cut(rest, `;base64,`)
		text, rest, _ := strings.Cut(rest, `"`)
		data, err := base64.StdEncoding.DecodeString(strings.ReplaceAll(text, "&#43;", "+"))
		require.NoError(t, err)
		_, _, err = image.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		assert.NotContains(t, rest, "<img")
		assert.Contains(t, rest, lost)
	}
	assert.Equal(t, []string{`photo "photos/<b>gone.jpg" not shown: no such file`}, n.Lost())
}
