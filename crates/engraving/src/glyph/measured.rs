//! The outlines of the Crookwise Notation glyphs. Written by `data/make_glyphs.py`; do not edit by hand.
//!
//! A modified subset of a font © 2019 Steinberg Media Technologies GmbH, under the SIL Open Font License 1.1:
//! see `data/OFL.txt`.

use super::Outline;

/// SMuFL `timeSig0`, U+E080: the 0 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG0: Outline = Outline { name: "timeSig0", code: 0xE080, advance: 470, bounds: [20, -251, 450, 250], anchors: &[], path: "m450 0c0-139-96-251-215-251-119 0-215 112-215 251 0 138 96 250 215 250 119 0 215-112 215-250zm-215-220c41 0 75 95 75 213 0 117-34 212-75 212-42 0-75-95-75-212 0-118 33-213 75-213z" };
/// SMuFL `timeSig1`, U+E081: the 1 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG1: Outline = Outline { name: "timeSig1", code: 0xE081, advance: 334, bounds: [20, -251, 314, 250], anchors: &[], path: "m24-13c0 0-4 6-4 13 0 5 3 11 11 14 4 1 8 2 9 2 10 0 14-9 14-9 0 0 43-69 54-88 4-7 8-10 10-10 4 0 6 8 6 14v258c0 23-23 38-44 38-7 0-17 3-17 15 0 11 9 16 22 16h213c16 0 16-16 16-16 0 0 0-15-15-15-14 0-32-18-32-35v-412c0-16-6-22-20-23-14 0-39 4-52 4-19 0-37-1-52-3-2 0-4-1-5-1-10 0-14 10-18 19z" };
/// SMuFL `timeSig2`, U+E082: the 2 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG2: Outline = Outline { name: "timeSig2", code: 0xE082, advance: 446, bounds: [20, -254, 426, 257], anchors: &[], path: "m421 91c0-12-5-14-12-14-8 0-11 4-13 11l-1 1c-10 25-18 44-39 44-5 0-10-1-17-3-13-5-20-6-30-11-20-8-67-24-108-24-13 0-26 2-37 6 22-36 107-66 129-72 70-19 133-48 133-131 0-106-104-152-197-152-70 0-132 6-181 63-17 21-28 46-28 73 0 14 3 28 9 43 15 31 46 55 82 55 61 0 70-63 70-88 0-60-69-63-69-83 2-14 20-38 79-38 89 0 90 67 90 96 0 91-75 160-147 204-55 35-94 84-111 149l-1 3c0 13 11 34 26 34 22 0 34-61 93-61 40 0 55 54 144 54 43 0 120-4 136-159z" };
/// SMuFL `timeSig3`, U+E083: the 3 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG3: Outline = Outline { name: "timeSig3", code: 0xE083, advance: 421, bounds: [20, -249, 401, 251], anchors: &[], path: "m213-248c-1 0-2 0-4 0l-7-1c-1 0-3 0-4 0-86 0-172 57-172 110 0 33 19 77 81 81h5c44 0 66-32 66-65v-8c-3-37-28-39-33-41-5-2-20 0-20-14v-4c2-17 33-25 42-25 85 0 93 53 93 77v7c0 74-59 103-122 106-10 1-24 6-24 17 0 12 17 12 25 12 115 0 124 78 124 91 0 106-54 118-76 118-4 0-8-1-9-1-8-1-27-1-28-16v-5c0-22 22-37 23-66 0-42-29-72-72-72-4 0-7 0-11 1-17 3-36 13-48 26-17 15-22 39-22 61 2 78 73 108 171 110h9c99 0 201-51 201-139v-7c-2-29-9-48-28-70-6-8-14-15-24-21l-21-12-33-9c-5-1-8-1-10-5-1-2-1-3-1-5 0-4 1-8 4-9 11-3 22-4 31-9 40-19 61-45 61-91 0-92-125-119-167-122z" };
/// SMuFL `timeSig4`, U+E084: the 4 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG4: Outline = Outline { name: "timeSig4", code: 0xE084, advance: 470, bounds: [20, -251, 450, 250], anchors: &[], path: "m362 74v-214c0-8-1-17-12-17-9 0-14 2-20 9l-95 115c-4 5-9 11-9 23v84h-135c80-68 240-295 243-307l1-3c0-9-7-15-15-15-9 0-50 2-68 2-18 0-63-2-71-2-9 0-23 3-23 19 0 124-98 263-128 305l-6 8c0 0 0 1 0 1l-1 1c-2 5-3 9-3 12 0 10 8 17 20 17h186v63c0 27-22 35-40 35-16 0-23 9-23 19 0 10 4 21 19 21h213c10 0 20-7 20-21 0-14-12-20-22-20-10 0-31-6-31-38v-59h73c10 0 15-7 15-19 0-12-4-19-15-19z" };
/// SMuFL `timeSig5`, U+E085: the 5 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG5: Outline = Outline { name: "timeSig5", code: 0xE085, advance: 403, bounds: [20, -246, 383, 251], anchors: &[], path: "m76-59c0 0 4-56 5-65 1-8 6-13 15-13h4c10 2 57 9 98 9 139 0 144-80 144-96 0-13-3-21-14-21-13 0-91 9-123 9-32 0-118-8-135-10-18 0-23 9-24 17l-11 222v2c0 13 10 15 20 15 10 0 11-9 22-20 10-10 34-33 68-33 34 0 103 19 103 130 0 110-59 124-85 124-8 0-16 0-23-3-5-3-11-7-12-14 0-7 7-11 12-14 23-14 38-39 38-67 0-44-35-78-78-78-54 0-76 39-79 74-1 6-1 12-1 18 0 83 54 124 177 124 120 0 186-74 186-164 0-91-74-165-165-165-58 0-101 10-133 29-2 1-4 1-5 1-4 0-4-4-4-7z" };
/// SMuFL `timeSig6`, U+E086: the 6 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG6: Outline = Outline { name: "timeSig6", code: 0xE086, advance: 434, bounds: [20, -251, 414, 249], anchors: &[], path: "m305-83c42 0 80-33 80-76 0-4 0-7-1-11-10-64-88-81-142-81-76 1-147 38-183 106-22 42-39 95-39 142v4c1 46 9 98 31 138 41 74 90 110 174 110 45 0 95-7 131-36 35-28 58-73 58-118 0-78-74-145-151-145-32 0-65 12-91 35-2 2-4 2-6 2-6 0-9-8-9-24 3-185 62-190 83-190 20 0 33 5 33 15 0 14-19 26-25 38-5 9-7 19-7 29 0 15 5 30 15 41 7 13 36 21 49 21zm-83 81c32 0 59 50 59 112 0 62-27 112-59 112-32 0-58-50-58-112 0-62 26-112 58-112z" };
/// SMuFL `timeSig7`, U+E087: the 7 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG7: Outline = Outline { name: "timeSig7", code: 0xE087, advance: 441, bounds: [20, -249, 421, 250], anchors: &[], path: "m421-204c0-27 0-40-17-40-1 0-17 4-21 11-7 12-21 69-46 69-25 0-72-85-155-85-58 0-73 23-87 36-14 13-20 17-27 18-8 0-21-14-26-24-2-4-7-7-12-7-5 0-10 3-10 12v165c0 0 1 16 11 16 8 0 11-9 15-20 10-25 23-83 68-83 40 0 88 75 146 75 28 0 42-15 50-21 3-2 7-4 9-4 4 0 6 3 7 9 0 28-77 84-137 155-38 44-69 102-69 141 0 21 0 31 19 31 18 0 40-9 65-9 25 0 72 9 82 9 10 0 16-8 16-37 0-167 119-310 119-413z" };
/// SMuFL `timeSig8`, U+E088: the 8 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG8: Outline = Outline { name: "timeSig8", code: 0xE088, advance: 436, bounds: [20, -259, 416, 259], anchors: &[], path: "m334-36c36-23 60-56 60-106 0-102-147-117-174-117-116 0-195 53-195 137 0 69 39 106 87 133-52 25-92 58-92 121 0 87 90 127 189 127 100 0 207-43 207-178 0-60-35-93-82-117zm-52-23c-80-28-165-45-165-108 0-42 57-63 101-63 32 0 117 16 117 86 0 40-20 66-53 85zm-77 285c-67 0-128-34-128-99 0-40 35-77 79-94 73 32 147 53 147 119 0 40-31 74-98 74z" };
/// SMuFL `timeSig9`, U+E089: the 9 of a time signature.
#[rustfmt::skip]
pub static TIME_SIG9: Outline = Outline { name: "timeSig9", code: 0xE089, advance: 434, bounds: [20, -251, 414, 249], anchors: &[], path: "m129 81c-42 0-80 33-80 76 0 4 0 7 1 11 10 64 88 81 142 81 76-1 147-38 183-106 22-42 39-95 39-142v-4c-1-46-9-98-31-138-41-74-90-110-174-110-45 0-95 7-131 36-35 28-58 73-58 118 0 78 74 145 151 145 32 0 65-12 91-35 2-2 4-2 6-2 6 0 9 8 9 24-3 185-62 190-83 190-20 0-33-5-33-15 0-14 19-26 25-38 5-9 7-19 7-29 0-15-5-30-15-41-7-13-36-21-49-21zm83-81c-32 0-59-50-59-112 0-62 27-112 59-112 32 0 58 50 58 112 0 62-26 112-58 112z" };
/// SMuFL `timeSigCommon`, U+E08A: common time.
#[rustfmt::skip]
pub static TIME_SIG_COMMON: Outline = Outline { name: "timeSigCommon", code: 0xE08A, advance: 424, bounds: [5, -251, 424, 249], anchors: &[], path: "m233-251c-142 0-228 126-228 261 0 65 24 122 65 172 38 46 93 67 153 67 175 0 201-159 201-188 0-22-11-22-15-22-8 0-15 1-15 18 0 129-110 159-142 159-81 0-124-79-124-244 0-165 76-199 130-199 52 0 73 24 73 34 0 9-3 22-18 22-40 0-63 43-63 74 0 57 49 75 77 75 0 0 76-3 76-86 0-131-151-143-170-143z" };
/// SMuFL `timeSigCutCommon`, U+E08B: cut common time.
#[rustfmt::skip]
pub static TIME_SIG_CUT_COMMON: Outline = Outline { name: "timeSigCutCommon", code: 0xE08B, advance: 417, bounds: [0, -361, 418, 359], anchors: &[], path: "m398 40c-4 0-10 2-10 17 0 128-110 158-142 158-10 0-18-1-26-3-4-1-10-7-10-15v-396c0-7 18-24 25-25 6-1 12-1 17-1 51 0 73 24 73 34 0 8-3 22-18 22-40 0-63 43-63 74 0 56 49 74 77 74 0 0 76-3 76-86 0-98-91-141-176-141-6-1-11-18-11-23v-73c0-8-7-17-18-17-8 0-17 9-17 17v88c0 7-10 16-12 16l-27 10c-90 39-136 145-136 240 0 94 60 205 156 230 7 3 19 16 19 25v77c0 9 9 17 17 17 11 0 18-8 18-17v-79c0-6 4-11 11-14 170-3 197-159 197-190-1-19-11-19-16-19zm-223 123c0 9-3 12-6 12-2 0-4-1-5-3-27-38-41-105-41-198 0-76 16-123 38-154 1-2 2-2 3-2 5 0 11 8 11 16z" };
/// SMuFL `segno`, U+E047: the segno.
#[rustfmt::skip]
pub static SEGNO: Outline = Outline { name: "segno", code: 0xE047, advance: 557, bounds: [4, -759, 550, 27], anchors: &[], path: "m135-665c6 0 13 2 16 13l2 7c7 27 22 86 73 86 41 0 69-24 69-67 0-15-3-31-8-47-16-46-83-63-134-63-70 0-149 86-149 185 0 24 5 49 16 74 32 73 177 162 185 165 4 2 6 4 6 8 0 4-2 9-6 16-7 14-151 273-151 273-2 4-3 9-3 13 0 16 12 29 28 29 10 0 20-6 25-15 0 0 155-280 158-286 0 1 8-5 12-5 15 3 215 62 215 157 0 39-24 65-58 70l-3 1c-21 0-38-14-38-45v-11c0-38-25-66-53-66-4 0-8 1-12 2-37 9-71 25-71 65 0 61 62 114 121 114 13 0 27-2 42-7 80-27 133-92 133-175 0-9-1-19-2-29-15-110-173-199-185-205-12-7-17-11-17-16 0-2 1-4 2-6 5-8 160-287 160-287 3-5 4-9 4-14 0-16-13-28-28-28-10 0-20 5-25 14 0 0-159 287-165 296-3 5-5 8-9 8-3 0-6-1-10-3-9-3-160-61-186-106-6-11-14-32-14-53 0-27 12-55 54-62zm280 199c0 31 26 57 57 57 32 0 57-26 57-57 0-32-25-57-57-57-31 0-57 25-57 57zm-275 202c0-31-25-57-57-57-31 0-57 26-57 57 0 32 26 57 57 57 32 0 57-25 57-57z" };
/// SMuFL `coda`, U+E048: the coda.
#[rustfmt::skip]
pub static CODA: Outline = Outline { name: "coda", code: 0xE048, advance: 954, bounds: [-4, -898, 955, 158], anchors: &[], path: "m937-400h-119c-10-188-150-339-312-352v-129c0-13-11-17-24-17-13 0-24 4-24 17v129c-162 13-301 163-312 352h-132c-14 0-18 11-18 24 0 13 4 24 18 24h132c11 187 150 339 312 352v140c0 14 11 18 24 18 13 0 24-4 24-18v-140c162-13 302-165 312-352h119c14 0 18-11 18-24 0-13-4-24-18-24zm-284 0h-147v-296c140 12 147 134 147 296zm-195-296v296h-142c0-162 0-284 142-296zm-142 344h142v304c-129-15-141-150-142-304zm190 304v-304h147c-3 153-22 289-147 304z" };
/// SMuFL `noteheadDoubleWhole`, U+E0A0: the breve.
#[rustfmt::skip]
pub static NOTEHEAD_DOUBLE_WHOLE: Outline = Outline { name: "noteheadDoubleWhole", code: 0xE0A0, advance: 599, bounds: [0, -155, 599, 155], anchors: &[], path: "m9-155c-6 0-9 4-9 8v295c0 4 3 7 9 7h13c5 0 9-3 9-7v-295c0-4-4-8-9-8zm58 0c-6 0-10 4-10 8v295c0 4 4 7 10 7h12c5 0 10-3 10-7v-295c0-4-5-8-10-8zm452 0c-5 0-10 4-10 8v295c0 4 5 7 10 7h13c5 0 10-3 10-7v-295c0-4-5-8-10-8zm57 0c-4 0-10 4-10 8v295c0 4 6 7 10 7h13c6 0 10-3 10-7v-295c0-4-4-8-10-8zm-272 30c-132 0-214 55-214 124 0 65 56 126 204 126 162 0 215-57 215-126 0-71-112-124-205-124zm22 226c-42 0-70-23-96-52-18-23-33-57-33-89 0-51 34-62 81-62 68 0 123 73 123 133 0 49-31 70-75 70z" };
/// SMuFL `augmentationDot`, U+E1E7: the dot of a dotted note.
#[rustfmt::skip]
pub static AUGMENTATION_DOT: Outline = Outline { name: "augmentationDot", code: 0xE1E7, advance: 100, bounds: [0, -50, 100, 50], anchors: &[], path: "m100 0c0-28-22-50-50-50-28 0-50 22-50 50 0 28 22 50 50 50 28 0 50-22 50-50z" };
/// SMuFL `flag8thUp`, U+E240: the flag of an eighth, stem up.
#[rustfmt::skip]
pub static FLAG8TH_UP: Outline = Outline { name: "flag8thUp", code: 0xE240, advance: 264, bounds: [0, -9, 264, 810], anchors: &[], path: "m238 790c0 0 26-95 26-173 0-125-52-243-115-343-51-79-93-165-109-261-3-16-11-22-21-22-11 0-19 3-19 15v239c66 12 161 148 197 233 15 34 24 91 24 150 0 45-7 92-24 137-2 6-3 11-3 15 0 16 10 25 16 29 6 4 23-2 28-19z" };
/// SMuFL `flag8thDown`, U+E241: the flag of an eighth, stem down.
#[rustfmt::skip]
pub static FLAG8TH_DOWN: Outline = Outline { name: "flag8thDown", code: 0xE241, advance: 306, bounds: [0, -808, 306, 14], anchors: &[], path: "m240-760c14 42 21 92 21 137 0 59-25 143-40 177-37 84-87 165-221 210v235c0 10 8 15 16 15 9 0 22-6 24-22 17-95 91-182 142-261 63-99 124-218 124-343 0-78-20-149-28-181-3-11-9-15-16-15-15 0-32 19-22 48z" };
/// SMuFL `flag16thUp`, U+E242: the flags of a sixteenth, stem up.
#[rustfmt::skip]
pub static FLAG16TH_UP: Outline = Outline { name: "flag16thUp", code: 0xE242, advance: 279, bounds: [0, -2, 279, 813], anchors: &[], path: "m272 796c4-5 7-62 7-110v-22c0-42-11-83-29-120 0-3-1-5-1-9 0-2 0-4 1-7 3-6 25-66 25-127 0-13-1-24-3-36-10-68-36-96-108-174-54-58-110-74-127-180-2-11-14-13-20-13-6 0-17 3-17 10v388h5c62 2 133 4 202 144 23 48 32 97 32 149 0 29-3 59-8 89-1 4-1 6-1 9 0 13 8 26 22 26 7 0 14-4 20-17zm-63-337c-16-25-33-45-54-69-47-54-93-78-114-160-1-1-1-2-1-3 0-4 6-10 14-10h8c61 0 115 56 148 105 18 26 27 57 27 89 0 7 0 13-1 20-2 8-2 18-7 26-1 3-8 6-13 6-3 0-5-1-7-4z" };
/// SMuFL `flag16thDown`, U+E243: the flags of a sixteenth, stem down.
#[rustfmt::skip]
pub static FLAG16TH_DOWN: Outline = Outline { name: "flag16thDown", code: 0xE243, advance: 292, bounds: [0, -812, 291, 9], anchors: &[], path: "m240-786c15 84 15 175-23 253-69 140-150 143-212 145h-5v387c0 5 7 10 17 10 7 0 18-2 20-13 24-154 221-197 245-354 2-11 3-23 3-36 0-61-22-121-25-127-1-2-1-4-1-7 0-4 1-6 1-9 36-75 37-173 21-253-5-23-12-22-24-22-12 1-20 9-17 26zm-14 330c5 0 12 3 13 7 5 7 5 17 7 25 1 7 1 14 1 20 0 33-9 63-27 89-33 49-97 105-158 105h-8c-8 0-14-5-14-10 0-1 0-2 1-3 21-82 77-105 124-160 21-23 38-43 54-69 2-3 4-4 7-4z" };
/// SMuFL `flag32ndUp`, U+E244: the flags of a thirty-second, stem up.
#[rustfmt::skip]
pub static FLAG32ND_UP: Outline = Outline { name: "flag32ndUp", code: 0xE244, advance: 262, bounds: [0, -149, 261, 812], anchors: &[], path: "m260 673c-2-39-11-77-26-113-1-2-1-4-1-7 0-2 0-4 1-6 2-7 23-62 23-119 0-32-7-64-21-93 9-26 20-67 20-106 0-10 0-19-2-28-11-61-34-88-101-161-50-54-104-70-121-170-1-9-8-19-18-19-6 0-14 5-14 12v560h5c58 2 124 4 188 134 22 44 31 89 31 137 0 28-3 56-8 85 0 3-1 5-1 7 0 12 6 21 13 24 2 1 4 2 6 2 6 0 13-5 20-16 3-6 7-52 7-95 0-10-1-19-1-28zm-52-492c11 20 15 35 15 48 0 8-2 14-3 21-2 10-7 27-12 44-14-18-32-37-55-62-49-54-98-71-114-168 55 0 114 24 169 117zm11 275c-2 8-2 16-5 23-1 3-6 6-11 6-3 0-6-1-7-4-15-22-29-39-46-59l-5-5c-43-51-84-73-106-146-2-7 3-16 12-16 80 0 170 96 170 177 0 8-1 16-2 24z" };
/// SMuFL `flag32ndDown`, U+E245: the flags of a thirty-second, stem down.
#[rustfmt::skip]
pub static FLAG32ND_DOWN: Outline = Outline { name: "flag32ndDown", code: 0xE245, advance: 274, bounds: [0, -812, 273, 172], anchors: &[], path: "m273-676c0-20-7-136-42-136-2 0-4 0-6 1-7 3-14 13-14 26 0 2 1 4 1 7 8 45 20 76 20 110 0 28-8 57-31 98-76 136-140 138-201 140v589c0 9 6 13 14 13 10 0 18-11 19-20 17-104 74-120 126-177 70-76 94-104 105-168 2-9 2-19 2-29 0-43-13-87-22-114 16-29 23-67 23-101 0-52-16-95-20-105 0-1 0-2 0-2l-3-5c0-4 1-6 3-9l4-7c13-25 18-36 22-100zm-234 408c21-80 67-102 112-155 20-23 36-42 52-67 2-3 5-4 8-4 5 0 11 3 12 6 3 7 3 15 5 23 1 8 2 17 2 25 0 82-92 185-173 185h-5c-9 0-13-8-13-13zm190 25c1 7 3 13 3 21 0 13-4 29-16 50-57 96-118 122-175 122-2-1-2-2-2-3 17-104 68-120 120-177 24-26 42-46 56-64 6 19 11 40 14 51z" };
/// SMuFL `articAccentAbove`, U+E4A0: the accent.
#[rustfmt::skip]
pub static ARTIC_ACCENT_ABOVE: Outline = Outline { name: "articAccentAbove", code: 0xE4A0, advance: 339, bounds: [0, -245, 339, -1], anchors: &[], path: "m326-105c13-3 13-10 13-18 0-8 0-14-13-18l-300-102c-4-1-8-2-9-2-9 0-12 6-15 14-1 4-2 7-2 10 0 5 3 10 14 14 0 0 216 73 226 77 5 1 7 4 7 7 0 3-2 5-8 7-11 3-225 76-225 76-11 5-14 10-14 15 0 3 1 6 2 9 3 7 7 15 14 15 1 0 3 0 4-1z" };
/// SMuFL `articStaccatoAbove`, U+E4A2: the staccato dot.
#[rustfmt::skip]
pub static ARTIC_STACCATO_ABOVE: Outline = Outline { name: "articStaccatoAbove", code: 0xE4A2, advance: 84, bounds: [0, -84, 84, 0], anchors: &[], path: "m84-42c0-23-19-42-42-42-23 0-42 19-42 42 0 23 19 42 42 42 23 0 42-19 42-42z" };
/// SMuFL `articTenutoAbove`, U+E4A4: the tenuto line.
#[rustfmt::skip]
pub static ARTIC_TENUTO_ABOVE: Outline = Outline { name: "articTenutoAbove", code: 0xE4A4, advance: 338, bounds: [-1, -48, 338, 0], anchors: &[], path: "m314 0c23 0 24-11 24-24 0-13 0-24-24-24h-291c-24 0-24 11-24 24 0 13 0 24 24 24z" };
/// SMuFL `articStaccatissimoAbove`, U+E4A6: the wedge, above.
#[rustfmt::skip]
pub static ARTIC_STACCATISSIMO_ABOVE: Outline = Outline { name: "articStaccatissimoAbove", code: 0xE4A6, advance: 102, bounds: [1, -293, 100, 2], anchors: &[], path: "m50-293c-26 0-48 9-49 22 0 15 26 273 49 273 25 0 50-249 50-272 0-15-23-23-50-23z" };
/// SMuFL `articStaccatissimoBelow`, U+E4A7: the wedge, below.
#[rustfmt::skip]
pub static ARTIC_STACCATISSIMO_BELOW: Outline = Outline { name: "articStaccatissimoBelow", code: 0xE4A7, advance: 102, bounds: [1, 0, 100, 295], anchors: &[], path: "m50 295c27 0 50-8 50-23 0-23-25-272-50-272-23 0-49 258-49 273 1 13 23 22 49 22z" };
/// SMuFL `articMarcatoAbove`, U+E4AC: the upright accent, above.
#[rustfmt::skip]
pub static ARTIC_MARCATO_ABOVE: Outline = Outline { name: "articMarcatoAbove", code: 0xE4AC, advance: 236, bounds: [-1, -253, 235, 1], anchors: &[], path: "m126-247c-3-4-6-6-10-6-7 0-10 6-10 6l-106 231c-1 2-1 3-1 5 0 5 2 10 7 11 1 1 4 1 5 1 4 0 9-2 11-7 0 0 54-119 56-123 1-2 2-3 4-3 2 0 4 1 6 3 1 4 57 123 57 123 3 4 7 6 11 6h68c7-1 11-5 11-11 0-2 0-4-1-5z" };
/// SMuFL `articMarcatoBelow`, U+E4AD: the upright accent, below.
#[rustfmt::skip]
pub static ARTIC_MARCATO_BELOW: Outline = Outline { name: "articMarcatoBelow", code: 0xE4AD, advance: 236, bounds: [-1, 0, 235, 254], anchors: &[], path: "m108 248c3 4 6 6 10 6 7 0 10-6 10-6l106-231c1-2 1-3 1-5 0-5-2-10-7-11-1-1-4-1-5-1-4 0-9 2-11 7 0 0-54 119-56 123-1 2-2 3-4 3-2 0-4-1-6-3-1-4-57-123-57-123-3-4-7-6-11-6h-68c-7 1-11 5-11 11 0 2 0 4 1 5z" };
/// SMuFL `fermataAbove`, U+E4C0: the fermata, above.
#[rustfmt::skip]
pub static FERMATA_ABOVE: Outline = Outline { name: "fermataAbove", code: 0xE4C0, advance: 605, bounds: [3, -329, 605, 3], anchors: &[], path: "m302-221c213 0 256 158 266 196 1 3 1 6 2 7 7 14 11 21 21 21 9 0 14-4 14-14 0-3 0-6-1-10-62-306-271-308-300-308-32 0-239 2-300 308-1 4-1 8-1 11 0 10 5 13 13 13 9 0 14-7 20-21 1-1 2-5 3-9 12-41 57-194 263-194zm56 169c0-29-25-54-55-54-29 0-54 25-54 54 0 30 25 55 54 55 30 0 55-25 55-55z" };
/// SMuFL `fermataBelow`, U+E4C1: the fermata, below.
#[rustfmt::skip]
pub static FERMATA_BELOW: Outline = Outline { name: "fermataBelow", code: 0xE4C1, advance: 605, bounds: [3, 0, 605, 332], anchors: &[], path: "m302 224c-206 0-251-153-263-194-1-4-2-8-3-9-6-14-11-21-20-21-8 0-13 3-13 13 0 3 0 7 1 11 61 306 268 308 300 308 29 0 238-2 300-308 1-4 1-7 1-10 0-10-5-14-14-14-10 0-14 7-21 21-1 1-1 4-2 7-10 38-53 196-266 196zm56-169c0-30-25-55-55-55-29 0-54 25-54 55 0 29 25 54 54 54 30 0 55-25 55-54z" };
/// SMuFL `breathMarkComma`, U+E4CE: the breath mark.
#[rustfmt::skip]
pub static BREATH_MARK_COMMA: Outline = Outline { name: "breathMarkComma", code: 0xE4CE, advance: 153, bounds: [1, -251, 152, -2], anchors: &[], path: "m72-251c-43 0-71 28-71 63 0 34 23 56 56 56 25 0 28 21 28 21 1 4 2 7 2 11 0 14-7 27-16 39-17 22-43 37-45 39-4 2-8 4-8 10l1 1c1 7 4 9 7 9 33 0 84-44 100-69 20-31 26-66 26-95v-7c0-47-34-78-80-78z" };
/// SMuFL `restDoubleWhole`, U+E4E2: the rest of a breve.
#[rustfmt::skip]
pub static REST_DOUBLE_WHOLE: Outline = Outline { name: "restDoubleWhole", code: 0xE4E2, advance: 126, bounds: [0, -250, 125, 0], anchors: &[], path: "m125-15v-220c0-8-7-15-17-15h-92c-9 0-16 7-16 15v220c0 8 7 15 16 15h92c10 0 17-7 17-15z" };
/// SMuFL `rest32nd`, U+E4E8: the thirty-second rest.
#[rustfmt::skip]
pub static REST32ND: Outline = Outline { name: "rest32nd", code: 0xE4E8, advance: 363, bounds: [0, -426, 363, 500], anchors: &[], path: "m353-419c-5 0-8 2-11 4-7 5-57 66-91 66v-9c0-38-30-68-68-68-37 0-68 30-68 68 0 20 12 38 28 50 8 7 18 11 28 14 8 2 16 4 26 4 26 0 53-10 76-22 1-1 3-1 4-1 7 0 11 10 11 17l-1 2c0 0 0 1 0 1l-39 160c-5 16-38 36-54 36 1-3 1-6 1-9 0-38-31-68-68-68-38 0-68 30-68 68 0 20 12 38 28 50 8 7 17 11 27 14 8 2 17 4 27 4 26 0 52-10 75-22 1-1 2-1 3-1 5 0 7 8 7 13l-40 164c-5 21-36 34-51 35 1-4 1-7 1-10 0-38-30-68-68-68-37 0-68 30-68 68 0 41 42 68 80 68 27 0 55-9 78-22 1-1 2-1 3-1 3 0 6 3 6 6 0 4-69 279-71 286-1 2-1 4-1 6 0 8 6 16 27 16 32 0 35-10 39-21 3-12 175-782 175-782 0 0 24-89 26-101 0-2 1-3 1-4 0-9-8-11-10-11z" };
/// SMuFL `dynamicPiano`, U+E520: p.
#[rustfmt::skip]
pub static DYNAMIC_PIANO: Outline = Outline { name: "dynamicPiano", code: 0xE520, advance: 365, bounds: [-89, -274, 366, 142], anchors: &[], path: "m274-274c-31 0-53 10-71 26-14 12-17 20-21 20-5 0-2-7-11-24-7-12-22-21-48-21-59 0-91 42-122 99-5 9-7 14-7 19 0 7 5 11 11 11 7 0 11-6 16-15 29-50 49-76 67-76 8 0 11 5 11 12 0 8-3 18-6 25l-123 305c-3 8-5 10-15 10h-31c-9 0-13 4-13 13 0 8 4 12 12 12h193c9 0 13-4 13-13 0-8-4-12-12-12h-40c-6 0-9 0-9-3 0-1 1-4 2-7l45-112c2-5 4-12 9-12 5 0 8 10 24 18 14 7 27 9 44 9 96 0 174-100 174-195 0-58-36-89-92-89zm-27 37c17 0 23 15 23 37 0 49-53 176-101 176-17 0-25-11-25-32 0-21 8-41 19-69l20-49c14-34 40-63 64-63z" };
/// SMuFL `dynamicMezzo`, U+E521: m.
#[rustfmt::skip]
pub static DYNAMIC_MEZZO: Outline = Outline { name: "dynamicMezzo", code: 0xE521, advance: 437, bounds: [-20, -274, 446, 10], anchors: &[], path: "m367-274c-29 0-52 14-68 31-10 10-11 14-15 14-5 0-2-8-8-21-6-13-19-24-44-24-29 0-52 14-68 31-10 10-11 14-15 14-5 0-2-7-8-21-6-13-20-23-39-23-53 0-84 43-115 99-5 9-7 14-7 19 0 7 5 11 11 11 7 0 10-5 15-13 30-51 50-78 68-78 8 0 11 5 11 12 0 8-3 18-6 25l-73 181c-2 5-3 8-3 11 0 4 3 6 11 6h49c9 0 12-2 16-12l65-162c12-29 33-50 55-50 12 0 15 6 15 14 0 12-4 23-10 37 0 1-1 1-63 156-2 5-3 8-3 11 0 4 3 6 11 6h49c9 0 12-2 16-12l65-162c12-29 33-50 55-50 12 0 15 6 15 14 0 35-62 138-62 180 0 26 16 40 45 40 38 0 73-28 105-81 6-10 9-16 9-21 0-6-4-9-9-9-7 0-10 5-15 13-19 30-38 54-51 54-6 0-8-3-8-9 0-35 58-122 58-177 0-25-13-54-54-54z" };
/// SMuFL `dynamicForte`, U+E522: f.
#[rustfmt::skip]
pub static DYNAMIC_FORTE: Outline = Outline { name: "dynamicForte", code: 0xE522, advance: 364, bounds: [-141, -444, 364, 152], anchors: &[], path: "m16-264c-11 0-16 5-16 16 0 10 5 15 15 15h58c6 0 8 0 8 4 0 2-1 5-2 10l-63 219c-28 98-46 130-86 130-13 0-18-4-18-9 0-8 9-3 24-13 12-8 20-21 20-37 0-26-18-41-45-41-30 0-52 24-52 55 0 44 33 67 75 67 76 0 123-51 178-164 29-61 51-123 75-208l1-1c0-3 8-12 13-12h65c11 0 16-5 16-16 0-10-5-15-15-15h-60c-7 0-10 0-10-5 0-3 1-6 2-12 20-87 42-140 92-140 8 0 16 2 16 8 0 6-5 5-16 10-13 6-21 20-21 38 0 28 20 42 45 42 26 0 49-17 49-54 0-37-23-67-86-67-97 0-151 69-184 165-5 15-6 15-20 15z" };
/// SMuFL `dynamicRinforzando`, U+E523: r.
#[rustfmt::skip]
pub static DYNAMIC_RINFORZANDO: Outline = Outline { name: "dynamicRinforzando", code: 0xE523, advance: 277, bounds: [-20, -274, 277, 0], anchors: &[], path: "m225-274c-26 0-47 14-62 31-9 10-10 14-14 14-5 0-1-5-8-21-6-13-20-23-40-23-49 0-82 39-114 99-5 9-7 14-7 19 0 7 5 11 11 11 7 0 11-5 15-13 30-52 50-78 68-78 8 0 11 5 11 12 0 8-3 18-6 25l-73 181c-2 5-3 8-3 11 0 4 3 6 11 6h49c9 0 12-2 16-12l65-162c13-33 45-70 67-70 6 0 10 2 10 6 0 9-22 12-22 40 0 20 15 32 36 32 24 0 42-20 42-55 0-29-15-53-52-53z" };
/// SMuFL `dynamicSforzando`, U+E524: s.
#[rustfmt::skip]
pub static DYNAMIC_SFORZANDO: Outline = Outline { name: "dynamicSforzando", code: 0xE524, advance: 229, bounds: [0, -273, 229, 10], anchors: &[], path: "m147-273c-59 0-100 30-100 83 0 35 19 54 54 78 29 20 38 33 38 53 0 22-19 45-51 45-25 0-42-8-42-15 0-5 6-3 17-10 9-6 14-16 14-29 0-20-17-33-36-33-24 0-41 20-41 47 0 33 34 64 87 64 65 0 115-35 115-93 0-28-10-49-49-78-36-27-48-38-48-57 0-16 12-33 43-33 17 0 31 4 31 11 0 4-5 4-12 9-6 5-10 13-10 24 0 20 15 32 35 32 24 0 37-19 37-38 0-37-31-60-82-60z" };
/// SMuFL `dynamicZ`, U+E525: z.
#[rustfmt::skip]
pub static DYNAMIC_Z: Outline = Outline { name: "dynamicZ", code: 0xE525, advance: 244, bounds: [-30, -268, 244, 10], anchors: &[], path: "m231-268c-8 0-13 3-24 6-11 3-27 5-41 5-60 0-89-9-101-9-10 0-15 4-18 13l-24 70c-2 6-3 11-3 15 0 7 5 10 11 10 7 0 11-6 15-15l10-21c3-6 5-12 11-12 4 0 21 3 50 3 18 0 32-7 38-7 4 0-18 22-19 23l-154 156c-8 8-12 12-12 20 0 7 5 12 13 12 9 0 15-8 20-12 8-6 16-10 24-10 28 0 48 31 97 31 56 0 82-40 82-81 0-31-18-44-36-44-18 0-33 14-33 35 0 19 13 30 27 30 10 0 13-5 16-5 2 0 3 1 3 3 0 2-2 6-4 10-4 7-11 11-20 11-30 0-39-35-78-35-13 0-19 6-22 6 0 0 7-12 12-17l160-158c8-8 13-14 13-22 0-7-6-11-13-11z" };
/// SMuFL `ornamentTrill`, U+E566: the trill.
#[rustfmt::skip]
pub static ORNAMENT_TRILL: Outline = Outline { name: "ornamentTrill", code: 0xE566, advance: 521, bounds: [0, -390, 521, 10], anchors: &[], path: "m266-390c-4 0-10 2-13 3l-49 16c-9 3-13 6-17 16l-36 88c-4 10-5 12-8 12-4 0-10-5-19-9-14-6-27-9-42-9-47 0-82 28-82 70 0 31 21 57 66 57 12 0 25-2 31-2 2 0 3 1 3 3 0 2-1 5-3 10l-11 27c-11 27-19 47-19 68 0 28 19 50 57 50 52 0 102-42 102-116 0-24-4-46-13-68-2-5-3-7-3-10 0-6 6-11 22-20l6-3c35-21 59-35 78-35 9 0 13 3 13 15 0 10-3 22-6 29l-73 181c-2 5-3 8-3 11 0 4 3 6 11 6h49c9 0 12-2 16-12l65-162c13-33 45-70 67-70 6 0 10 2 10 6 0 9-22 12-22 40 0 20 15 32 36 32 24 0 42-20 42-55 0-29-15-53-52-53-26 0-47 14-62 31-9 10-10 14-14 14-5 0-1-7-9-22-7-13-22-22-44-22-40 0-78 20-99 31-13 7-19 11-24 11-2 0-3-1-3-3 0-4 3-10 5-15l50-124c2-5 3-8 3-11 0-4-2-6-6-6zm-184 140c11 0 51 9 51 24 0 3-2 8-4 13l-4 10c-5 13-9 16-22 19-13 3-25 5-35 5-33 0-41-16-41-30 0-18 15-41 55-41zm107 83c9 0 14 53 14 62 0 44-27 84-56 84-8 0-11-5-11-12 0-8 4-21 8-31 0-1 1-1 39-96 2-5 3-7 6-7z" };
/// SMuFL `ornamentTurn`, U+E567: the turn.
#[rustfmt::skip]
pub static ORNAMENT_TURN: Outline = Outline { name: "ornamentTurn", code: 0xE567, advance: 460, bounds: [0, -218, 460, 0], anchors: &[], path: "m371-218c-31 0-56 14-56 44 0 22 15 36 36 36 29 0 30-23 51-23 17 0 33 21 33 47 0 43-30 64-65 64-32 0-65-27-108-75-49-54-93-92-158-92-66 0-104 50-104 114 0 72 46 103 89 103 31 0 56-14 56-44 0-22-15-36-36-36-29 0-30 23-51 23-17 0-33-21-33-47 0-43 30-64 65-64 32 0 65 27 108 75 49 54 93 92 158 92 66 0 104-50 104-114 0-72-46-103-89-103z" };
/// SMuFL `ornamentTurnInverted`, U+E568: the turn upside down.
#[rustfmt::skip]
pub static ORNAMENT_TURN_INVERTED: Outline = Outline { name: "ornamentTurnInverted", code: 0xE568, advance: 457, bounds: [-3, -218, 457, 0], anchors: &[], path: "m86-218c-43 0-89 31-89 103 0 64 38 114 104 114 65 0 109-38 158-92 43-48 76-75 108-75 35 0 65 21 65 64 0 26-16 47-33 47-21 0-22-23-51-23-21 0-36 14-36 36 0 30 25 44 56 44 43 0 89-31 89-103 0-64-38-114-104-114-65 0-109 38-158 92-43 48-76 75-108 75-35 0-65-21-65-64 0-26 16-47 33-47 21 0 22 23 51 23 21 0 36-14 36-36 0-30-25-44-56-44z" };
/// SMuFL `ornamentShortTrill`, U+E56C: the short trill.
#[rustfmt::skip]
pub static ORNAMENT_SHORT_TRILL: Outline = Outline { name: "ornamentShortTrill", code: 0xE56C, advance: 730, bounds: [0, -245, 725, 0], anchors: &[], path: "m298-116l-89-110c-7-9-13-17-31-19-7 0-13 2-22 9-46 50-95 107-145 163-5 6-11 13-11 23 0 6 5 10 20 10 9 0 18-3 29-13l61-54c3-3 7-4 11-4 5 0 9 4 16 12 4 5 78 82 86 92 4 5 12 7 20 7 8 0 15-2 19-5l108-98c7-7 12-8 15-8 5 0 8 3 16 12 5 5 78 82 87 92 4 5 12 7 20 7 8 0 15-2 19-5 7-6 171-184 184-199 6-8 14-19 14-23 0-10-18-18-27-18-6 0-12 3-18 7-11 9-80 96-91 107-8 7-14 10-19 10-7 0-12-5-17-10-9-9-75-90-85-99-8-8-16-14-23-14-9 0-15 1-24 8-9 8-16 17-23 25-28 31-57 63-90 95-3 4-7 4-10 0z" };
/// SMuFL `ornamentMordent`, U+E56D: the mordent.
#[rustfmt::skip]
pub static ORNAMENT_MORDENT: Outline = Outline { name: "ornamentMordent", code: 0xE56D, advance: 729, bounds: [1, -319, 729, 73], anchors: &[], path: "m379-184v-135h-31v169l-29 34c-4 5-10 5-14 0-36-42-90-104-95-111-8-8-14-17-31-18-9 0-14 3-22 9l-143 162c-6 6-13 16-13 23 0 6 5 10 20 10 16 0 30-14 40-24 13-11 25-23 39-34 10-8 17-13 22-13 5 0 9 4 15 12l87 93c4 5 12 7 20 7 7 0 14-2 18-6 10-6 68-59 84-73v152h32v-179c4-3 8-5 12-5 5 0 10 3 16 11 4 6 78 83 87 93 4 5 12 7 19 7 8 0 15-2 19-6 8-6 171-184 184-199l2-3c6-6 12-13 12-20 0-10-18-17-26-17-7 0-13 3-18 7-11 9-80 95-92 106-8 7-13 10-18 10-7 0-13-5-18-10-8-8-74-90-84-99-9-8-17-14-25-14-8 0-13 2-22 9-9 7-16 17-23 25z" };
/// SMuFL `wiggleArpeggiatoUp`, U+EAA9: a wave of an arpeggio, upright.
#[rustfmt::skip]
pub static WIGGLE_ARPEGGIATO_UP: Outline = Outline { name: "wiggleArpeggiatoUp", code: 0xEAA9, advance: 255, bounds: [-119, -292, 0, 33], anchors: &[], path: "m-119-90c0 79 56 100 72 117 4 4 7 6 10 6 5 0 8-6 8-13 0-4-1-9-3-13-7-15-12-27-12-46 0-45 44-55 44-133 0-79-72-113-88-119-2-1-3-1-4-1-3 0-5 3-5 6 0 6 4 14 7 18 9 13 16 23 16 36 0 3 0 7-1 11-3 20-14 37-21 54-10 22-23 50-23 77z" };
/// SMuFL `stringsDownBow`, U+E610: the bow downwards.
#[rustfmt::skip]
pub static STRINGS_DOWN_BOW: Outline = Outline { name: "stringsDownBow", code: 0xE610, advance: 312, bounds: [0, -318, 312, 0], anchors: &[], path: "m26-318c-14 0-26 12-26 26v280c0 7 6 12 12 12h14c6 0 12-5 12-12v-164c0-11 59-17 118-17 59 0 118 6 118 17v164c0 7 6 12 13 12h13c6 0 12-5 12-12v-280c0-14-12-26-26-26z" };
/// SMuFL `stringsUpBow`, U+E612: the bow upwards.
#[rustfmt::skip]
pub static STRINGS_UP_BOW: Outline = Outline { name: "stringsUpBow", code: 0xE612, advance: 250, bounds: [1, -495, 249, -1], anchors: &[], path: "m126-1c8 0 15-6 17-14l106-459v-4c0-8-5-15-14-17h-4c-8 0-15 5-17 13l-89 385-88-385c-3-8-10-13-18-13h-4c-8 2-14 9-14 16 0 2 0 3 1 5l105 459c2 8 9 14 19 14z" };
/// SMuFL `caesura`, U+E4D1: the break.
#[rustfmt::skip]
pub static CAESURA: Outline = Outline { name: "caesura", code: 0xE4D1, advance: 385, bounds: [0, -532, 384, 1], anchors: &[], path: "m28 1c12 0 22-7 26-19l169-477c1-3 1-6 1-9 0-15-13-28-28-28-12 0-22 7-26 19l-168 477c-1 3-2 7-2 10 0 11 7 21 19 25 3 2 6 2 9 2zm186-19l169-477c1-3 1-6 1-9 0-15-13-28-28-28-12 0-22 7-26 19l-169 477c-1 3-1 6-1 9 0 11 7 22 19 26 3 2 6 2 9 2 11 0 22-7 26-19z" };
/// SMuFL `fingering0`, U+ED10: the 0 of a small number.
#[rustfmt::skip]
pub static FINGERING0: Outline = Outline { name: "fingering0", code: 0xED10, advance: 255, bounds: [20, -251, 235, 1], anchors: &[], path: "m235-125c0-69-48-126-108-126-59 0-107 57-107 126 0 69 48 126 107 126 60 0 108-57 108-126zm-108-110c21 0 48 47 48 106 0 59-27 107-48 107-21 0-47-48-47-107 0-59 26-106 47-106z" };
/// SMuFL `fingering1`, U+ED11: the 1 of a small number.
#[rustfmt::skip]
pub static FINGERING1: Outline = Outline { name: "fingering1", code: 0xED11, advance: 157, bounds: [20, -254, 137, 0], anchors: &[], path: "m21-137c0 0-1 4-1 7 0 4 4 8 8 8 3 0 5-3 6-4 1-3 13-44 19-54 2-4 4-5 5-5 2 0 3 4 3 7v143c0 12-10 19-20 19-4 0-9 2-9 8 0 6 5 8 13 8h84c8 0 8-8 8-8 0 0 0-8-8-8-7 0-16-9-16-18v-208c0-8-3-12-10-12-7 0-13 2-19 2-10 0-12 0-20-2-4 0-9 6-12 10z" };
/// SMuFL `fingering2`, U+ED12: the 2 of a small number.
#[rustfmt::skip]
pub static FINGERING2: Outline = Outline { name: "fingering2", code: 0xED12, advance: 242, bounds: [20, -253, 222, 3], anchors: &[], path: "m220-80c0-7-3-8-6-8-4 0-6 3-7 6-5 14-16 32-31 32-2 0-4 0-6-1l-15-5c-10-4-34-12-54-12-7 0-13 1-19 3 11-19 63-44 74-47 36-5 66-26 66-65 0-24-10-40-23-52-26-21-64-24-75-24-36 0-65 2-91 32-7 8-10 16-10 24 0 7 3 15 6 24 6 12 19 21 33 21 25 0 28-24 28-35 0-23-25-25-25-35 0-7 10-19 40-19 47 0 63 39 63 51 0 18-6 35-16 49-18 23-51 31-76 47-28 17-47 46-56 78 0 7 3 15 9 18 1 1 3 1 4 1 11 0 17-31 47-31 20 0 27 27 72 27 21 0 60-2 68-79z" };
/// SMuFL `fingering3`, U+ED13: the 3 of a small number.
#[rustfmt::skip]
pub static FINGERING3: Outline = Outline { name: "fingering3", code: 0xED13, advance: 225, bounds: [20, -252, 205, 0], anchors: &[], path: "m102-252c-55 0-79 37-79 58 0 14 8 31 33 32 19 0 28-12 28-25v-4c-1-15-11-16-13-17-2-1-6-5-6-12 2-11 17-15 21-15 51 0 66 27 66 44 0 47-48 51-63 52-7 0-14 3-14 9 0 6 9 6 13 6 58 0 66 30 66 45 0 58-47 60-59 60-6 0-16-3-17-8v-6c0-11 3-23 4-33 0-18-12-29-30-29h-4c-7 2-14 6-19 11-7 6-9 15-9 24 1 32 29 59 79 60h6c49 0 100-26 100-70 0-10-2-18-5-24-2-6-6-11-10-15-3-4-7-7-11-10l-11-6-6-2c0 0-1 0-1 0l-3-1c0 0 0 0-1 0l-6-2c-3-1-4 0-5-2-1-1-1-2-1-3 0-2 1-4 3-4l16-5c7-4 14-7 19-14 8-8 11-21 11-32 0-47-62-60-84-62z" };
/// SMuFL `fingering4`, U+ED14: the 4 of a small number.
#[rustfmt::skip]
pub static FINGERING4: Outline = Outline { name: "fingering4", code: 0xED14, advance: 236, bounds: [20, -253, 216, -1], anchors: &[], path: "m171-90v-107c0-5-1-9-6-9-4 0-7 1-10 5l-30 58c-2 2-5 5-5 12v41h-65c41-34 105-147 106-154l1-1c0-5-4-8-7-8-5 0-26 2-35 2-9 0-15-2-19-2-5 0-12 2-12 10 0 64-52 137-65 155-2 2-4 5-4 8 0 5 4 10 10 10h90v31c0 14-8 18-16 18-9 0-13 4-13 9 0 5 2 11 11 11h86c5 0 10-4 10-11 0-7-6-10-11-10-5 0-16-3-16-19v-29h37c5 0 8-4 8-10 0-6-2-10-8-10z" };
/// SMuFL `fingering5`, U+ED15: the 5 of a small number.
#[rustfmt::skip]
pub static FINGERING5: Outline = Outline { name: "fingering5", code: 0xED15, advance: 225, bounds: [20, -258, 205, 0], anchors: &[], path: "m24-134c0 7 5 9 10 9 2 0 6-5 11-11 6-5 30-17 48-17 18 0 62 10 62 68 0 57-51 65-65 65h-6c-4 0-8 0-16-2-5-2-12-11-12-17 0-3 2-5 6-5 17 0 28-15 28-28 0-18-15-33-32-33-23 0-37 17-38 31v7c0 37 24 67 88 67 63 0 97-38 97-85 0-48-38-86-86-86-30 0-52 5-69 15-4 0-5 0-5-5 0 0 2-41 3-46 0-4 3-7 8-7 11 1 34 5 53 5 72 0 75-32 75-39 0-5-2-10-7-10-7 0-48 5-65 5-16 0-61-5-70-5-9 0-12 4-12 8z" };
/// SMuFL `fingering6`, U+ED24: the 6 of a small number.
#[rustfmt::skip]
pub static FINGERING6: Outline = Outline { name: "fingering6", code: 0xED24, advance: 237, bounds: [20, -250, 216, 0], anchors: &[], path: "m145-188c5 4 11 8 20 8l3-1c16-3 26-16 26-31v-4c-1-13-9-22-24-28-12-4-27-6-40-6-38 1-73 19-91 53-10 20-19 46-19 69v4c0 65 33 124 102 124 48 0 94-24 94-78v-6c-1-19-14-48-32-57-10-6-21-8-33-8-15 0-31 4-47 8l-3 1c0 0 0 0-1 0l-8 2c0 0-1 0-1 0l-2 1c-10 0-12-11-12-21 0-21 5-52 20-67 7-8 22-13 32-13 10 0 17 2 17 7 0 1-4 10-6 14-2 4-3 9-3 13 0 6 2 12 8 16zm-24 62c26 0 44 19 44 50 0 31-16 62-44 62-30 0-45-31-45-62 0-31 17-50 45-50z" };
/// SMuFL `fingering7`, U+ED25: the 7 of a small number.
#[rustfmt::skip]
pub static FINGERING7: Outline = Outline { name: "fingering7", code: 0xED25, advance: 242, bounds: [20, -245, 217, 0], anchors: &[], path: "m217-235c0-5-1-7-6-7-1 0-8 2-10 5-3 6-10 34-22 34-13 0-39-42-80-42-24 0-35 11-42 18-7 6-10 8-14 9-3 0-10-8-12-12-1-2-4-4-6-4-2 0-5 2-5 6v61c0 0 0 8 5 8 3 0 5-4 7-8 4-4 12-42 34-42 20 0 43 37 72 37 14 0 24-8 27-11 1-1 3-2 4-2 2 0 3 2 4 5 0 19-18 62-47 96-19 22-34 50-34 69 0 11 0 15 9 15 9 0 12-4 24-4 13 0 21 4 26 4 5 0 8-3 8-18 0-82 58-152 58-203z" };
/// SMuFL `fingering8`, U+ED26: the 8 of a small number.
#[rustfmt::skip]
pub static FINGERING8: Outline = Outline { name: "fingering8", code: 0xED26, advance: 231, bounds: [20, -251, 212, 0], anchors: &[], path: "m172-133c17-11 29-37 29-61 0-49-71-57-84-57-56 0-95 16-95 57 0 33 19 51 43 64-25 12-45 38-45 69 0 42 44 61 92 61 48 0 100-11 100-76 0-29-17-45-40-57zm-25-11c-39-14-90-32-90-62 0-21 38-31 59-31 15 0 56 8 56 42 0 19-9 42-25 51zm-37 128c-33 0-62-16-62-48 0-19 16-47 38-55 35 15 81 35 81 67 0 20-25 36-57 36z" };
/// SMuFL `fingering9`, U+ED27: the 9 of a small number.
#[rustfmt::skip]
pub static FINGERING9: Outline = Outline { name: "fingering9", code: 0xED27, advance: 235, bounds: [20, -250, 216, 0], anchors: &[], path: "m91-62c-6-4-12-8-20-8l-3 1c-16 3-27 16-27 31v4c2 13 10 22 24 28 13 4 27 6 40 6 71-2 111-60 111-126 0-64-35-124-103-124-48 0-93 22-93 76v8c1 14 6 26 12 38 5 8 11 15 19 19 10 6 21 8 33 8 20 0 42-7 61-11l2-1c9 0 11 9 11 19 0 22-3 53-19 69-7 8-23 13-33 13-9 0-16-2-16-7 0-1 4-10 6-14 2-4 3-9 3-13 0-6-3-12-8-16zm24-62c-26 0-44-19-44-50 0-31 16-62 44-62 30 0 44 31 44 62 0 31-16 50-44 50z" };
/// SMuFL `bracketTop`, U+E003: the upper end of a bracket.
#[rustfmt::skip]
pub static BRACKET_TOP: Outline = Outline { name: "bracketTop", code: 0xE003, advance: 469, bounds: [0, -295, 469, 0], anchors: &[], path: "m0 0h125c160-30 303-104 343-271 1-4 1-7 1-10 0-8-3-12-8-14-9 0-20 7-25 14-10 11-136 143-327 157h-101c-6 0-8 1-8 7z" };
/// SMuFL `bracketBottom`, U+E004: the lower end of a bracket.
#[rustfmt::skip]
pub static BRACKET_BOTTOM: Outline = Outline { name: "bracketBottom", code: 0xE004, advance: 469, bounds: [0, 0, 469, 295], anchors: &[], path: "m0 117c0 6 2 7 8 7h101c191 14 317 146 327 157 5 7 16 14 25 14 5-2 8-6 8-14 0-3 0-6-1-10-40-167-183-241-343-271h-125z" };

/// All of them.
#[rustfmt::skip]
pub static ALL: [&Outline; 61] = [&TIME_SIG0, &TIME_SIG1, &TIME_SIG2, &TIME_SIG3, &TIME_SIG4, &TIME_SIG5, &TIME_SIG6, &TIME_SIG7, &TIME_SIG8, &TIME_SIG9, &TIME_SIG_COMMON, &TIME_SIG_CUT_COMMON, &SEGNO, &CODA, &NOTEHEAD_DOUBLE_WHOLE, &AUGMENTATION_DOT, &FLAG8TH_UP, &FLAG8TH_DOWN, &FLAG16TH_UP, &FLAG16TH_DOWN, &FLAG32ND_UP, &FLAG32ND_DOWN, &ARTIC_ACCENT_ABOVE, &ARTIC_STACCATO_ABOVE, &ARTIC_TENUTO_ABOVE, &ARTIC_STACCATISSIMO_ABOVE, &ARTIC_STACCATISSIMO_BELOW, &ARTIC_MARCATO_ABOVE, &ARTIC_MARCATO_BELOW, &FERMATA_ABOVE, &FERMATA_BELOW, &BREATH_MARK_COMMA, &REST_DOUBLE_WHOLE, &REST32ND, &DYNAMIC_PIANO, &DYNAMIC_MEZZO, &DYNAMIC_FORTE, &DYNAMIC_RINFORZANDO, &DYNAMIC_SFORZANDO, &DYNAMIC_Z, &ORNAMENT_TRILL, &ORNAMENT_TURN, &ORNAMENT_TURN_INVERTED, &ORNAMENT_SHORT_TRILL, &ORNAMENT_MORDENT, &WIGGLE_ARPEGGIATO_UP, &STRINGS_DOWN_BOW, &STRINGS_UP_BOW, &CAESURA, &FINGERING0, &FINGERING1, &FINGERING2, &FINGERING3, &FINGERING4, &FINGERING5, &FINGERING6, &FINGERING7, &FINGERING8, &FINGERING9, &BRACKET_TOP, &BRACKET_BOTTOM];
