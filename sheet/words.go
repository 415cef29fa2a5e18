package sheet

import "strings"

// ownWords are the words a sheet itself adds to what it is given.
type ownWords struct {
	Page, Of              string
	For, Site             string
	Number                string
	Name, Signature, Date string
	How                   string
	Working               string
	NotShown              string
	Yes                   string
}

// fixedWords are those words by language; en stands in for the rest. From memory, common practice.
var fixedWords = map[string]ownWords{
	"en": {"page", "of", "For", "Site", "Number", "Name", "Signature", "Date", "Given by", "Working", "Picture not shown", "chosen"},
	"fr": {"page", "de", "Pour", "Chantier", "Numéro", "Nom", "Signature", "Date", "Par", "Calcul", "Image non affichée", "choisi"},
	"es": {"página", "de", "Para", "Obra", "Número", "Nombre", "Firma", "Fecha", "Por", "Cálculo", "Imagen no mostrada", "elegido"},
	"de": {"Seite", "von", "Für", "Baustelle", "Nummer", "Name", "Unterschrift", "Datum", "Durch", "Rechenweg", "Bild nicht gezeigt", "gewählt"},
}

// wordsIn returns the words for a language tag.
func wordsIn(lang string) ownWords {
	base, _, _ := strings.Cut(lang, "-")
	if w, ok := fixedWords[strings.ToLower(base)]; ok {
		return w
	}
	return fixedWords["en"]
}
