package measure

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// clean returns the text with the many characters that stand for a space, a
// minus sign, a prime or a degree sign each brought to one, and trimmed.
func clean(text string) string {
	ascii := true
	for i := range len(text) {
		if c := text[i]; c >= utf8.RuneSelf || c < ' ' || c == '\'' {
			ascii = false
			break
		}
	}
	if !ascii {
		text = strings.Map(cleanRune, text)
		text = strings.ReplaceAll(text, "''", `"`)
	}
	return strings.Trim(text, " ")
}

func cleanRune(r rune) rune {
	switch r {
	case '\u2212', '\u2010', '\u2011', '\u2012', '\u2013':
		return '-'
	case '′', '’', '‘', 'ʹ', '´':
		return '\''
	case '″', '”', '“', 'ʺ':
		return '"'
	case 'º', '˚':
		return '°'
	case '⁄', '∕':
		return '/'
	case '\u2060', '\ufeff':
		return -1
	}
	if unicode.IsSpace(r) {
		return ' '
	}
	return r
}
