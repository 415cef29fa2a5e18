package book

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReadPhotoStaysInTheBook(t *testing.T) {
	outside := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(outside, "secret.jpg"), []byte("secret"), 0o600))
	root := t.TempDir()
	job := filepath.Join(root, "jobs", "7-quay")
	require.NoError(t, os.MkdirAll(filepath.Join(job, "photos"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(job, "photos", "open panel.jpg"), []byte("0123456789"), 0o600))
	require.NoError(t, os.Symlink(filepath.Join(outside, "secret.jpg"), filepath.Join(job, "photos", "link.jpg")))

	for _, name := range []string{"photos/open panel.jpg", "photos/open%20panel.jpg", "./photos/open panel.jpg"} {
		data, err := ReadPhoto(root, "jobs/7-quay", name, 20)
		require.NoError(t, err, name)
		assert.Equal(t, "0123456789", string(data), name)
	}
	data, err := ReadPhoto(root, "jobs/7-quay", "photos/open panel.jpg", 4)
	require.NoError(t, err)
	assert.Len(t, data, 5, "one more than the limit, by which it shows")
	for name, want := range map[string]error{
		"photos/none.jpg": ErrPhotoMissing, "photos/link.jpg": ErrPhotoElsewhere, "../../../x.jpg": ErrPhotoElsewhere, "..%2F..%2F..%2Fx.jpg": ErrPhotoMissing,
		filepath.Join(outside, "secret.jpg"): ErrPhotoElsewhere, "https://example.com/a.jpg": ErrPhotoElsewhere, "": ErrPhotoElsewhere,
	} {
		data, err := ReadPhoto(root, "jobs/7-quay", name, 20)
		if name == "..%2F..%2F..%2Fx.jpg" {
			require.Error(t, err)
		} else {
			assert.ErrorIs(t, err, want, name)
		}
		assert.Nil(t, data, name)
	}
	_, err = ReadPhoto(root, "jobs/7-quay", "photos", 20)
	assert.ErrorContains(t, err, "no plain file")
}
