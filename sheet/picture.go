package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/draw"
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
	upright := scaled(img)
	if kind == "jpeg" {
		upright = turned(upright, orientation(p.Bytes))
	}
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

// scaled brings the longest side down to maxSide and puts the picture on white.
func scaled(img image.Image) *image.RGBA {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	if long := max(w, h); long > maxSide {
		w, h = max(1, w*maxSide/long), max(1, h*maxSide/long)
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.CatmullRom.Scale(out, out.Bounds(), img, b, draw.Over, nil)
	return out
}

// turned returns the picture upright, by the eight orientations of Exif 2.32, section 4.6.5.1, tag 274.
func turned(img *image.RGBA, orientation int) *image.RGBA {
	if orientation < 2 || orientation > 8 {
		return img
	}
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	ow, oh := w, h
	if orientation >= 5 {
		ow, oh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, ow, oh))
	for y := range oh {
		for x := range ow {
			sx, sy := x, y
			switch orientation {
			case 2:
				sx = w - 1 - x
			case 3:
				sx, sy = w-1-x, h-1-y
			case 4:
				sy = h - 1 - y
			case 5:
				sx, sy = y, x
			case 6:
				sx, sy = y, h-1-x
			case 7:
				sx, sy = w-1-y, h-1-x
			case 8:
				sx, sy = w-1-y, x
			}
			out.SetRGBA(x, y, img.RGBAAt(sx, sy))
		}
	}
	return out
}

// orientation reads how a JPEG was held from its Exif part, or returns 1, upright, when it does not say.
func orientation(file []byte) int {
	for i := 2; i+4 <= len(file) && file[i] == 0xff && file[i+1] != 0xda; {
		size := int(file[i+2])<<8 | int(file[i+3])
		if size < 2 || i+2+size > len(file) {
			break
		}
		part := file[i+4 : i+2+size]
		if file[i+1] == 0xe1 && bytes.HasPrefix(part, []byte("Exif\x00\x00")) {
			return exifOrientation(part[6:])
		}
		i += 2 + size
	}
	return 1
}

// exifOrientation finds tag 274 in the first directory of a TIFF header.
func exifOrientation(t []byte) int {
	if len(t) < 8 {
		return 1
	}
	big := t[0] == 'M'
	number := func(at, n int) int {
		if at < 0 || at+n > len(t) {
			return 0
		}
		v := 0
		for i := range n {
			b := int(t[at+i])
			if big {
				v = v<<8 | b
			} else {
				v |= b << (8 * i)
			}
		}
		return v
	}
	dir := number(4, 4)
	for i := range min(number(dir, 2), 200) {
		if at := dir + 2 + 12*i; number(at, 2) == 274 {
			return number(at+8, 2)
		}
	}
	return 1
}
