// Package photo sets a photograph upright and brings it down to the size it is shown in. What comes
// out is pixels alone: nothing else the file carried (place, owner, camera, time) leaves with it.
package photo

import (
	"image"
	"image/color"

	"golang.org/x/image/draw"
)

// Upright returns a picture that was decoded from file, turned as the file says it was held (Exif
// orientation of a JPEG or PNG) and scaled down until its longer side is at most side pixels. The same
// file gives the same pixels.
func Upright(from image.Image, file []byte, side int) *image.RGBA {
	return turned(fitted(from, side), orientation(file))
}

// fitted scales a picture down until its longer side fits, on white where it is transparent.
// A smaller one keeps its size; no side becomes less than one pixel.
func fitted(from image.Image, side int) *image.RGBA {
	w, h := from.Bounds().Dx(), from.Bounds().Dy()
	if long := max(w, h); long > side {
		w, h = max(1, (w*side+long/2)/long), max(1, (h*side+long/2)/long)
	}
	to := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(to, to.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.CatmullRom.Scale(to, to.Bounds(), from, from.Bounds(), draw.Over, nil)
	return to
}

// turned sets a picture upright by its Exif orientation, 1 to 8 (CIPA DC-008, tag 0x0112: which
// edges of the scene row 0 and column 0 are).
func turned(from *image.RGBA, how int) *image.RGBA {
	w, h := from.Bounds().Dx(), from.Bounds().Dy()
	size := image.Rect(0, 0, w, h)
	if how >= 5 {
		size = image.Rect(0, 0, h, w)
	}
	if how <= 1 || how > 8 {
		return from
	}
	to := image.NewRGBA(size)
	for y := range h {
		for x := range w {
			p := image.Pt(x, y)
			switch how {
			case 2: // mirrored
				p = image.Pt(w-1-x, y)
			case 3: // upside down
				p = image.Pt(w-1-x, h-1-y)
			case 4: // upside down and mirrored
				p = image.Pt(x, h-1-y)
			case 5: // row 0 is the left edge, column 0 the top
				p = image.Pt(y, x)
			case 6: // row 0 is the right edge, column 0 the top
				p = image.Pt(h-1-y, x)
			case 7: // row 0 is the right edge, column 0 the bottom
				p = image.Pt(h-1-y, w-1-x)
			case 8: // row 0 is the left edge, column 0 the bottom
				p = image.Pt(y, w-1-x)
			}
			to.SetRGBA(p.X, p.Y, from.RGBAAt(x, y))
		}
	}
	return to
}
