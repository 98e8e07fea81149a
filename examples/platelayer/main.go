// Platelayer reads the plan of a garden railway and prints its laying book:
// everything that is to be known before rail is cut, mortar mixed or stone
// ordered. It is an example of how the packages of fourfoot work together, and
// holds no formula of its own.
//
//	go run ./examples/platelayer              the demo line
//	go run ./examples/platelayer plan.json    your own
//	go run ./examples/platelayer -out DIR     also a page with drawings, and CSV files
package main

import (
	"context"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"reflect"
	"strings"
)

//go:embed plans/demo.json
var demo []byte

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run is the command; it returns the exit status: 0, 1 when the book could not
// be written, 2 when what was given is at fault.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("platelayer", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	out := flags.String("out", "", "")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		usage(stdout)
		return 0
	} else if err != nil {
		fmt.Fprintf(stderr, "platelayer: %v; -h tells what is\n", err)
		return 2
	}
	if flags.NArg() > 1 {
		fmt.Fprintf(stderr, "platelayer: one plan at a time, not %d; flags come before it\n", flags.NArg())
		return 2
	}
	data, name := demo, "the demo plan"
	if flags.NArg() == 1 {
		name = flags.Arg(0)
		var err error
		if data, err = readPlan(name); err != nil {
			fmt.Fprintf(stderr, "platelayer: %v\n", err)
			return 2
		}
	}
	book, err := makeBook(context.Background(), data)
	if err != nil {
		lines := strings.Split(err.Error(), "\n")
		if n := len(lines); n > mostFaults {
			lines = append(lines[:mostFaults], fmt.Sprintf("%d more", n-mostFaults))
		}
		fmt.Fprintf(stderr, "platelayer: %s: %s\n", name, strings.Join(lines, "\n  also: "))
		return 2
	}
	if *out != "" {
		if err := writeFiles(*out, book); err != nil {
			fmt.Fprintf(stderr, "platelayer: %v\n", err)
			return 1
		}
	}
	if err := writeText(stdout, book); err != nil {
		fmt.Fprintf(stderr, "platelayer: %v\n", err)
		return 1
	}
	if *out != "" {
		fmt.Fprintf(stdout, "\nWritten to %s: laying-book.html, a CSV file a table and an SVG file a drawing.\n", *out)
	}
	return 0
}

// mostFaults is how many faults of a plan are told at once: a screenful.
const mostFaults = 20

// maxPlan is the largest plan file that is read.
const maxPlan = 4 << 20

func readPlan(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxPlan+1))
	if err == nil && len(data) > maxPlan {
		err = fmt.Errorf("%s: a plan may be at most %d bytes long", name, maxPlan)
	}
	return data, err
}

func usage(w io.Writer) {
	fmt.Fprint(w, `platelayer prints the laying book of a garden railway.

  go run ./examples/platelayer [-out DIR] [plan.json]

Without a plan it takes the demo line. With -out it also writes DIR/laying-book.html,
one page with drawings to true proportion, a CSV file for every table and an SVG file
for every drawing.

A plan is a JSON object with the keys below. Every quantity is text with its unit:
"45 mm", "1.2 m", "3/8 in", "4ft 8 1/2in"; "90°" or "90 deg"; "20 °C" or "68 °F";
"1 in 50" or "2 %". Chainages are along the centreline from the start of the line,
left and right are seen in the running direction, radii are to the track centre,
heights are above the rail head that stays level. A "note" may stand anywhere.
Results are for model lines that carry no people.

`)
	describePlan(w, reflect.TypeFor[Plan](), "  ")
}
