package catalog

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

func families() (all [9]laminate.FamilyData) {
	const (
		modulusSource = "modulus (3.0 to 3.4 GPa for polyester and vinyl ester), Poisson's ratio, failure strain and heat deflection temperature " + fromMemory
		polyester     = "density Non-destructive Testing and Repair of Pipelines, table 5; " + modulusSource
		vinylEster    = "density " + fromMemory + " (1120 to 1160 kg/m3); " + modulusSource
		brominated    = "density " + fromMemory + " (1200 to 1250 kg/m3); " + modulusSource
		chlorendic    = "density " + fromMemory + " (1200 to 1300 kg/m3); " + modulusSource
	)
	set := func(f laminate.Family, density, modulusGPa, failure, deflects float64, source string) {
		all[f] = laminate.FamilyData{Density: kgPerM3(density), Modulus: gigapascal(modulusGPa),
			Poisson: 0.36, FailureStrain: failure, HeatDeflection: spelled(deflects, quantity.Celsius), Source: source}
	}
	set(laminate.Isophthalic, 1120, 3.3, 0.020, 95, polyester)
	set(laminate.Terephthalic, 1120, 3.2, 0.022, 105, polyester)
	set(laminate.BisphenolFumarate, 1120, 3.0, 0.018, 125, polyester)
	set(laminate.Chlorendic, 1250, 3.3, 0.014, 135, chlorendic)
	set(laminate.VinylEster, 1150, 3.2, 0.050, 100, vinylEster)
	set(laminate.BrominatedVinylEster, 1220, 3.4, 0.045, 105, brominated)
	set(laminate.NovolacVinylEster, 1150, 3.4, 0.035, 145, vinylEster)
	set(laminate.BrominatedNovolacVinylEster, 1220, 3.4, 0.035, 140, brominated)
	// A resin whose family is not stated weighs about what they all do, so that a
	// wall shows its thickness while it is being built. It has no modulus: nothing
	// that carries load may rest on a guess.
	all[laminate.NoFamily] = laminate.FamilyData{Density: kgPerM3(1150), Source: "family not stated: density taken as 1150 kg/m3, the families run from 1120 to 1250, from memory"}
	return all
}

func fibers() (all [6]laminate.FiberData) {
	set := func(f laminate.Fiber, density, modulusGPa, poisson float64, source string) {
		all[f] = laminate.FiberData{Density: kgPerM3(density), Modulus: gigapascal(modulusGPa), Poisson: poisson, Source: source}
	}
	set(laminate.EGlass, 2580, 72.4, 0.22, "density (2540 to 2580 kg/m3), modulus (71 to 72.4 GPa) and Poisson's ratio "+fromMemory)
	set(laminate.ECRGlass, 2620, 72.4, 0.22, "density "+fromMemory+" (2620 to 2700 kg/m3); modulus and Poisson's ratio as E-glass")
	set(laminate.CGlass, 2500, 69, 0.22, "density (2490 to 2500 kg/m3), modulus and Poisson's ratio "+fromMemory)
	set(laminate.Polyester, 1380, 10, 0.40, "density, modulus and Poisson's ratio "+fromMemory)
	set(laminate.Carbon, 1780, 230, 0.20, "density (1750 to 1800 kg/m3), modulus and Poisson's ratio "+fromMemory)
	return all
}

func fillers() (all [4]laminate.FillerData) {
	all[laminate.SiliconCarbide] = laminate.FillerData{Density: kgPerM3(3210), Source: fromMemory}
	all[laminate.AluminumOxide] = laminate.FillerData{Density: kgPerM3(3950), Source: fromMemory}
	all[laminate.CarbonPowder] = laminate.FillerData{Density: kgPerM3(1800), Source: fromMemory}
	return all
}

func kgPerM3(v float64) quantity.Density {
	return spelled(v, quantity.KilogramPerCubicMeter)
}

func gigapascal(v float64) quantity.Pressure {
	return spelled(v, quantity.Gigapascal)
}

// spelled makes a quantity that reads as somebody would type it.
func spelled[D quantity.Dimension](v float64, u quantity.Unit[D]) quantity.Quantity[D] {
	return quantity.New(v, u).Spelled(u)
}
