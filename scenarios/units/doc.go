// Package units converts the measures of a roof exactly: lengths, film
// thicknesses, areas, volumes, coverages, loads and densities. It reads no
// study file; it knows a number, its unit and the other units of the same
// dimension.
//
// # Exactness
//
// Every factor is exact by definition. A conversion multiplies, which is
// exact, and divides once; a quotient that does not end is rounded to [Digits]
// significant digits ([Quotient]). So 1 ft is 0.3048 m without error, 1 m is
// 3.2808… ft to 50 digits, and there and back may differ in the fiftieth.
//
// The foot is the international foot. The US survey foot of 1200/3937 m, which
// was withdrawn at the end of 2022, is not meant; on a length of 1000 ft the
// two differ by 0.6 mm.
//
// # Bibliography
//
// All published. The definitions are cited from memory, without page numbers;
// the tests derive one from the other, 231 cubic inches of 25.4 mm against the
// litres of a gallon, for instance.
//
//	[SP811] NIST Special Publication 811, Guide for the Use of the
//	        International System of Units, appendix B: the inch of 25.4 mm,
//	        the foot, the pound of 0.45359237 kg, standard gravity of
//	        9.80665 m/s².
//	[HB44]  NIST Handbook 44, appendix C, General Tables of Units of
//	        Measurement: the gallon of 231 cubic inches, which is 3.785411784 L.
//
// The roofer's square of 100 ft² is common practice.
package units
