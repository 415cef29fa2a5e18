package report

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"html/template"
	"image"
	"image/jpeg"
	_ "image/png" // a photo may be a drawing or a screenshot
	"net/http"
	"slices"

	"jobday/notes"
	"jobday/photo"
)

// Limits of a photo. A file or a frame above them is not decoded: a small file can unpack into more
// pixels than there is memory.
const (
	MaxPhotoBytes  = 20 << 20   // 20 MiB
	MaxPhotoPixels = 50_000_000 // width by height
	photoSide      = 900        // pixels of the longer side as shown
	photoQuality   = 80         // of the JPEG as shown
)

// Why a photo is not shown. The texts stand behind "photo not shown: ".
var (
	ErrPhotoBytes  = fmt.Errorf("the file is larger than %d MB", MaxPhotoBytes>>20)
	ErrPhotoPixels = fmt.Errorf("the picture has more than %d million pixels", MaxPhotoPixels/1_000_000)
	ErrPhotoKind   = errors.New("the file is no JPEG and no PNG picture, whatever its name says")
	ErrPhotoBroken = errors.New("the file is damaged or incomplete")
)

// Pictures returns the bytes of a photo of one job by its path as a note writes it. An error says
// in plain words why there are none.
type Pictures func(path string) ([]byte, error)

// Picture is a photo as a page shows it: either URI, or Why it is not shown.
type Picture struct {
	Path          string
	URI           template.URL // of the picture itself, "data:image/jpeg;base64,..."
	Width, Height int          // pixels
	Why           string
}

// picture reads and scales one photo. Without a reader the picture is only named.
func (read Pictures) picture(path string) Picture {
	p := Picture{Path: path}
	if read == nil {
		return p
	}
	data, err := read(path)
	if err == nil {
		p.URI, p.Width, p.Height, err = photoURI(data)
	}
	if err != nil {
		p.Why = err.Error()
	}
	return p
}

// PhotoURI returns a photo as the source of an img element that needs no other file.
func PhotoURI(data []byte) (template.URL, error) {
	uri, _, _, err := photoURI(data)
	return uri, err
}

func photoURI(data []byte) (uri template.URL, w, h int, err error) {
	small, w, h, err := ScaledPhoto(data)
	if err != nil {
		return "", 0, 0, err
	}
	// What stands behind the comma was encoded here, from pixels only.
	return template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(small)), w, h, nil
}

// CheckPhoto looks at the head of a photo only: its size, its kind by content and its frame.
func CheckPhoto(data []byte) error {
	if len(data) > MaxPhotoBytes {
		return ErrPhotoBytes
	}
	switch http.DetectContentType(data) {
	case "image/jpeg", "image/png":
	default:
		return ErrPhotoKind
	}
	frame, _, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil, frame.Width <= 0, frame.Height <= 0:
		return ErrPhotoBroken
	case frame.Width > MaxPhotoPixels/frame.Height:
		return ErrPhotoPixels
	}
	return nil
}

// ScaledPhoto returns a JPEG or PNG, known by its content, as an upright JPEG of at most 900 pixels
// on its longer side. It is made from the pixels alone, so nothing else the file carried (place,
// owner, camera, time) leaves with it. The same photo gives the same bytes.
func ScaledPhoto(data []byte) (small []byte, w, h int, err error) {
	if err := CheckPhoto(data); err != nil {
		return nil, 0, 0, err
	}
	from, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, 0, 0, ErrPhotoBroken
	}
	upright := photo.Upright(from, data, photoSide)
	var out bytes.Buffer
	if err := jpeg.Encode(&out, upright, &jpeg.Options{Quality: photoQuality}); err != nil {
		return nil, 0, 0, ErrPhotoBroken
	}
	return out.Bytes(), upright.Bounds().Dx(), upright.Bounds().Dy(), nil
}

// Photo is a picture an entry points to.
type Photo struct {
	Path, Of string
	From     []notes.Source
	At       int // the deficiency of the day that shows it, from 1; 0 for none
}

// Photos lists the pictures the entries point to, with the entry's words.
func (v *View) Photos() []Photo {
	var list []Photo
	for _, e := range v.Day.Entries {
		for _, p := range e.Photos {
			at := slices.IndexFunc(v.Day.Deficiencies, func(d notes.DeficiencyRecord) bool { return slices.Contains(d.Photo, p) })
			list = append(list, Photo{p, e.Text, []notes.Source{e.Source}, at + 1})
		}
	}
	return list
}

// Picture is a photo as the page shows it.
func (v *View) Picture(path string) Picture { return v.photos.picture(path) }

// Shot is a picture with what it is of, which is read out where it cannot be seen.
type Shot struct {
	Picture
	Of string
}

func shot(p Picture, of string) Shot { return Shot{p, of} }
