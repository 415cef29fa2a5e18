package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"

	"jobday/photo"
)

// maxPixels is the largest picture that is read; more is a mistake or an attack on the memory.
const maxPixels = 80_000_000

// maxSide is the longest side of a picture in a sheet, in pixels: enough for a page's width at 200
// dots an inch.
const maxSide = 1400

// readyPicture is a picture as a sheet carries it: turned upright, scaled down, with nothing of the
// file it came from but its pixels, so that no place and no name of a camera leaves the house.
type readyPicture struct {
	bytes []byte
	kind  string // "jpg" or "png"
	w, h  int
}

func (r readyPicture) mime() string {
	if r.kind == "png" {
		return "image/png"
	}
	return "image/jpeg"
}

// ready makes a picture fit to be carried. The error says in words for the reader why it cannot be.
func (p Picture) ready() (readyPicture, error) {
	if len(p.Bytes) == 0 {
		if p.Missing != "" {
			return readyPicture{}, errors.New(shown(p.Missing))
		}
		return readyPicture{}, errors.New("no picture given")
	}
	c, kind, err := image.DecodeConfig(bytes.NewReader(p.Bytes))
	switch {
	case err != nil:
		return readyPicture{}, errors.New("the file is no PNG or JPEG picture")
	case c.Width <= 0 || c.Height <= 0 || c.Width > maxPixels/c.Height:
		return readyPicture{}, fmt.Errorf("the picture is too large: %d x %d", c.Width, c.Height)
	}
	img, _, err := image.Decode(bytes.NewReader(p.Bytes))
	if err != nil {
		return readyPicture{}, errors.New("the picture is damaged")
	}
	upright := photo.Upright(img, p.Bytes, maxSide)
	var out bytes.Buffer
	r := readyPicture{kind: "jpg", w: upright.Bounds().Dx(), h: upright.Bounds().Dy()}
	if kind == "png" {
		r.kind, err = "png", png.Encode(&out, upright)
	} else {
		err = jpeg.Encode(&out, upright, &jpeg.Options{Quality: 82})
	}
	r.bytes = out.Bytes()
	return r, err
}
