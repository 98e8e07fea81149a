package main

// cautions is the last chapter.
func cautions() Chapter {
	return Chapter{
		Title: "Before you start",
		Lines: []string{
			"Every number here is for a model line that carries no people; a line that does has rules of its own.",
			"Makers' data sheets, local codes and licensed trades come before this book.",
			"Mains: keep it out of the garden where you can; a qualified electrician, a 30 mA residual current device, armoured cable where it must be.",
			"Live steam and gas: fuel away from flame, reserves apart, no filling beside the line; boiler and gas-tank certificates.",
			"Torch and solder: clear dry leaves and plastic, water at hand, fresh air.",
			"Digging: find pipes and cables first; leave footings and roots alone.",
			"Lifting: bend the knees, two people for slabs and lift-out bridges.",
			"Children and walkers: no trip edges at ankle height, cover ponds, bring trains to a stand when somebody crosses.",
		},
	}
}
