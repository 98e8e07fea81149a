// Package caution holds the short cautions that results carry when they lead to
// work that can hurt, so that all packages say them in the same words.
package caution

// The cautions.
const (
	Cement  = "Wet cement burns skin, often unfelt: waterproof gloves, boots and goggles, never kneel in it, wash splashes off at once; a dust mask when emptying bags. The maker's data sheet comes first."
	Resin   = "Resins and adhesives irritate skin and lungs and can catch fire: gloves, goggles, fresh air, no flame. The maker's data sheet comes first."
	Lifting = "Bags and slabs strain backs: bend the knees, lift in twos, buy the smaller bag. Bulk loads are set down by the carrier."
	Digging = "Before digging find pipes and cables and have the utilities' plans at hand; leave the footings of walls and the roots of trees alone; shore or slope a deep trench. Local codes come first."
	Cutting = "Cutting stone, concrete or timber: eye guard, ear guard and dust mask, cut stone wet, clamp the work."
	Dust    = "Stone dust holds silica: damp the grit down, wear a dust mask."
	Treated = "Treated timber and felt adhesive: gloves, fresh air, no offcuts on a fire."
)
