// Package schedules reads and writes documents: TOML files that a person
// edits and a version control system compares. It turns the text of a schedule
// into the model and back, ties places of the model to lines, and tells every
// problem of a file at once.
//
// An edit changes the lines it is about and nothing else: a [Source] keeps the
// text as it was loaded, and [Source.Render] rewrites only the values that
// differ. The model knows nothing of it but an opaque origin on its rows.
//
// # The promise of the format
//
// A document is UTF-8, at most 16 MiB (a record 64 MiB), and begins with document and format.
// The present format is 1; a document of a higher one is refused and never
// half read. Within a format keys are only added, none is taken away, renamed
// or given another meaning. Keys are lower case and mean what they say only in
// that spelling. An unknown key is a problem, not a remark: a mistyped key
// must not silently leave a laminate without what it was to say.
//
// A physical value is text with its unit, "24 in"; a bare number there is a
// problem. Shares go from 0 to 1. Whole numbers serve wherever decimals do.
// What is not stated is unknown, unless the list below gives a value.
//
// The keys of a schedule, in canonical order (from [Keys]):
//
//	document format title job revision date author released superseded notes units
//
//	[part]
//	form process inside_diameter length liquid_height area flanged ends
//	design_basis stiffener_spacing modulus_retention k_factors grounding
//
//	[service]
//	fluid concentration temperature upset ph contact contains pressure
//	vacuum test_pressure specific_gravity flame_spread conductive abrasive
//
//	[[condition]]
//	name temperature pressure vacuum modulus_retention
//
//	[[resin]]
//	id family filler filler_content filler_density cure density modulus
//	poisson failure_strain heat_deflection bond_window flame_spread_tested product
//	initiator promoter thixotrope synergist styrene_content price source
//
//	[[material]]
//	id name form fiber areal_mass fiber_density glass_content
//	barrier_glass_content fiber_modulus fiber_poisson warp_share crimp_factor
//	thickness waxed conductive tow tows band_width e1 e2 g12 nu12
//	strength_tension_1 strength_compression_1 strength_tension_2
//	strength_compression_2 strength_shear price roll_width roll_length source
//
//	[[ply]]
//	material resin zone angle count glass_content void_content gel_after
//
// The keys of a job (from [JobKeys]): header, service, resins and materials as
// above, the keys of [[laminate.ply]] those of [[ply]], and
//
//	[vessel]
//	liquid_height rim
//
//	[test]
//	medium liquid_height pressure vacuum temperature held
//
//	[bond]
//	shear_strength factor source
//
//	[[laminate]]
//	id
//
//	[[part]]
//	id form laminate schedule knuckle process inside_diameter length
//	liquid_height area flanged ends design_basis stiffener_spacing
//	modulus_retention k_factors grounding shape crown_radius knuckle_radius
//	depth half_angle small_diameter bend_radius turn miters supported
//	hold_down knuckle_height taper width edge bolt_circle deflection_limit size
//	drilling bolts bolt_size outside_diameter thickness pressure_class torque
//	mate_face washers count laid proved_by proved_pressure proved_vacuum
//	proved_temperature proved_structure temperature pressure vacuum
//	specific_gravity
//
//	[[nozzle]]
//	id on height offset bearing size opening kind flange cover projection
//	pressure_class pad pad_diameter installation_outside installation_inside
//	neck neck_bond gussets sealed_edge piping_load proved_by proved_pressure
//	proved_vacuum proved_temperature proved_structure
//
//	[[joint]]
//	id between outside inside width first_width inside_width widths gap
//	axial_load qualification proved_by proved_pressure proved_vacuum
//	proved_temperature proved_structure
//
// The keys of a shop book (from [BookKeys]): materials and resins as above, and
//
//	document format title shop address notes rack
//
//	[[build]]
//	id veils mats
//
//	[[rating]]
//	fluid concentration temperature family build grade source date
//
//	[takeoff]
//	resin_waste_contact resin_waste_sprayed resin_waste_wound glass_waste
//	roving_waste overspray darting_mat darting_woven lap strips_join turnaround
//	batch laid_a_minute spray hours_contact hours_wound hours_joint hours_nozzle
//	hours_fixed hour_price currency
//
//	[[roll]]
//	material width length price
//
//	[[initiator]]
//	family cure temperature initiator promoter gel_minutes density price source
//
//	[[level]]
//	level kind side size_max depth_max per_area_max area source
//
// The keys of an exercise (from [ExerciseKeys]): what is given as in a
// schedule, what is demanded as in a specification, and
//
//	document format id title step kind scenario task keep_structure overlay units
//
//	[[wall]] as [[ply]], [joint] and [nozzle] as the sizes of those of a job
//
//	[[question]]
//	ask tolerance
//
//	[[specimen]]
//	zone before after
//
//	[[hint]]
//	text cost
package schedules
