package main

import (
	"fmt"
	"strconv"
	"strings"
)

func badWord(text []byte, known ...string) error {
	return fmt.Errorf("%q is none of %s", text, strings.Join(known, ", "))
}

// list joins words as a sentence does.
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// quoted puts words in quotes, as names are that may hold a comma.
func quoted(words []string) []string {
	var out []string
	for _, w := range words {
		out = append(out, strconv.Quote(w))
	}
	return out
}

// sentences joins cautions into one paragraph.
func sentences(cautions []string) string {
	var out []string
	for _, c := range cautions {
		out = append(out, strings.TrimSuffix(c, ".")+".")
	}
	return strings.Join(out, " ")
}
