//! Every construct of a file in a small score of our own.

use super::{bar, note, score, written};

/// How a horn in E-flat begins.
const HORN: &str = "<attributes><divisions>2</divisions><key><fifths>0</fifths></key>\
    <time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef>\
    <transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose></attributes>";

/// What stands in bars behind a first bar with a note in it, by name. Bars are parted by "|".
pub const CONSTRUCTS: [(&str, &str); 45] = [
    ("a clef within a bar", "C5 4|<attributes><clef><sign>F</sign><line>4</line></clef></attributes>|C4 4"),
    ("a key within a bar", "C5 4|<attributes><key><fifths>2</fifths></key></attributes>|F#5 4"),
    (
        "a crook within a bar",
        "C5 4|<attributes><transpose><diatonic>-4</diatonic><chromatic>-7</chromatic></transpose></attributes>|C5 4",
    ),
    (
        "a trill with its wavy line",
        "C5 8 <notations><ornaments><trill-mark/><wavy-line type=\"start\"/></ornaments></notations>|/|D5 8 <notations><ornaments><wavy-line type=\"stop\"/></ornaments></notations>",
    ),
    (
        "a triplet with a rest and a grace note",
        "<note><rest/><duration>2</duration><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification></note>|<note><grace/>P:E5</note>|C5 2",
    ),
    ("a chord", "C5 2|+E5 2|r 6"),
    ("voices", "C5 8 <voice>1</voice>|B8|G4 8 <voice>2</voice>"),
    ("forward", "B0|F4|C5 4"),
    ("a rest of the whole bar", "<note><rest measure=\"yes\"/><duration>8</duration></note>"),
    (
        "a rest at a place",
        "<note><rest><display-step>E</display-step><display-octave>4</display-octave></rest><duration>8</duration></note>",
    ),
    (
        "grace notes",
        "<note><grace slash=\"yes\" steal-time-previous=\"20\"/>P:D5<type>eighth</type></note>|<note><grace/>P:E5</note>|C5 8",
    ),
    ("a cue", "<note><cue/>P:F5<duration>4</duration><type size=\"cue\">half</type></note>|C5 4"),
    (
        "a triplet",
        "C5 2 <time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification><notations><tuplet type=\"start\" bracket=\"yes\"/></notations>",
    ),
    (
        "a tie",
        "C5 8 <tie type=\"start\"/><notations><tied type=\"start\"/></notations>|/|C5 8 <tie type=\"stop\"/><notations><tied type=\"stop\"/></notations>",
    ),
    (
        "a slur",
        "C5 4 <notations><slur type=\"start\" number=\"2\" placement=\"above\"/></notations>|D5 4 <notations><slur type=\"stop\" number=\"2\"/></notations>",
    ),
    (
        "beams",
        "C5 1 <type>eighth</type><beam number=\"1\">begin</beam>|D5 1 <type>eighth</type><beam number=\"1\">end</beam>",
    ),
    (
        "clefs",
        "<attributes><clef><sign>F</sign><line>4</line><clef-octave-change>1</clef-octave-change></clef></attributes>|C3 8",
    ),
    (
        "a key",
        "<attributes><key><cancel>1</cancel><fifths>-1</fifths><mode>minor</mode></key></attributes>|Bb4 8",
    ),
    (
        "a time",
        "<attributes><time symbol=\"cut\"><beats>2</beats><beat-type>2</beat-type></time></attributes>|C5 8",
    ),
    (
        "a change of crook",
        "<direction><direction-type><words>muta in D</words></direction-type></direction>|r 8|/|<attributes><transpose><diatonic>-6</diatonic><chromatic>-10</chromatic></transpose></attributes>|C5 8",
    ),
    (
        "a transposition without letters",
        "<attributes><transpose><chromatic>-10</chromatic></transpose></attributes>|C5 8",
    ),
    (
        "an octave more",
        "<attributes><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose></attributes>|C5 8",
    ),
    (
        "the octave below with it",
        "<attributes><transpose><diatonic>0</diatonic><chromatic>0</chromatic><double/></transpose></attributes>|C5 8|/|<attributes><transpose><diatonic>0</diatonic><chromatic>0</chromatic></transpose></attributes>|C5 8",
    ),
    (
        "two staves",
        "<attributes><staves>2</staves><clef number=\"2\"><sign>F</sign><line>4</line></clef></attributes>|C5 8 <staff>1</staff>|B8|C3 8 <staff>2</staff>",
    ),
    (
        "a transposition of one staff",
        "<attributes><staves>2</staves><transpose number=\"2\"><diatonic>-7</diatonic><chromatic>-12</chromatic><double/></transpose></attributes>|C5 8 <staff>1</staff>|B8|C4 8 <staff>2</staff>",
    ),
    (
        "an octave shift",
        "<direction><direction-type><octave-shift type=\"down\" size=\"8\"/></direction-type></direction>|C6 8|<direction><direction-type><octave-shift type=\"stop\" size=\"8\"/></direction-type></direction>",
    ),
    (
        "no pitch",
        "<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>8</duration></note>",
    ),
    ("a tremolo", "C5 8 <notations><ornaments><tremolo type=\"single\">3</tremolo></ornaments></notations>"),
    (
        "a tremolo between two notes",
        "C5 4 <notations><ornaments><tremolo type=\"start\">2</tremolo></ornaments></notations>|E5 4 <notations><ornaments><tremolo type=\"stop\">2</tremolo></ornaments></notations>",
    ),
    (
        "a trill",
        "C5 8 <notations><ornaments><trill-mark/><wavy-line type=\"start\"/><accidental-mark>flat</accidental-mark></ornaments></notations>",
    ),
    (
        "the hand",
        "C5 2 <notations><technical><stopped/></technical></notations>|C5 2 <notations><technical><open/></technical></notations>|C5 2 <notations><technical><half-muted/></technical></notations>",
    ),
    (
        "articulations",
        "C5 2 <notations><articulations><accent/><staccato/><tenuto/><strong-accent type=\"up\"/></articulations></notations>",
    ),
    ("a fermata", "C5 8 <notations><fermata type=\"inverted\">angled</fermata></notations>"),
    (
        "loudness",
        "<direction placement=\"below\"><direction-type><dynamics><sfp/></dynamics></direction-type><sound dynamics=\"80\"/></direction>|C5 8",
    ),
    (
        "hairpins",
        "<direction><direction-type><wedge type=\"crescendo\" spread=\"0\"/></direction-type></direction>|C5 4|<direction><direction-type><wedge type=\"stop\"/></direction-type></direction>|<direction><direction-type><wedge type=\"diminuendo\"/></direction-type></direction>|C5 4|<direction><direction-type><wedge type=\"stop\"/></direction-type></direction>",
    ),
    (
        "words",
        "<direction><direction-type><words font-style=\"italic\" xml:space=\"preserve\"> dolce &amp; solo </words></direction-type><offset>2</offset><voice>1</voice></direction>|C5 8",
    ),
    (
        "a tempo",
        "<direction><direction-type><metronome><beat-unit>half</beat-unit><beat-unit-dot/><per-minute>60</per-minute></metronome></direction-type><sound tempo=\"180\"/></direction>|C5 8",
    ),
    (
        "a rehearsal letter",
        "<direction><direction-type><rehearsal enclosure=\"square\">C</rehearsal></direction-type></direction>|C5 8",
    ),
    (
        "repeats",
        "<barline location=\"left\"><bar-style>heavy-light</bar-style><repeat direction=\"forward\"/></barline>|C5 8|/|C5 8|<barline location=\"right\"><repeat direction=\"backward\" times=\"3\"/></barline>",
    ),
    (
        "endings",
        "<barline location=\"left\"><ending number=\"1\" type=\"start\">1.</ending></barline>|C5 8|<barline location=\"right\"><ending number=\"1\" type=\"stop\"/><repeat direction=\"backward\"/></barline>|/|<barline location=\"left\"><ending number=\"2\" type=\"start\"/></barline>|C5 8|<barline location=\"right\"><ending number=\"2\" type=\"discontinue\"/></barline>",
    ),
    (
        "da capo and fine",
        "C5 8|<direction><direction-type><words>Fine</words></direction-type><sound fine=\"yes\"/></direction>|/|C5 8|<direction><direction-type><words>D. C.</words></direction-type><sound dacapo=\"yes\"/></direction>",
    ),
    (
        "segno and coda",
        "<direction><direction-type><segno/></direction-type><sound segno=\"A\"/></direction>|C5 8|<sound tocoda=\"B\"/>|/|<direction><direction-type><coda/></direction-type></direction>|C5 8|<sound dalsegno=\"A\"/>",
    ),
    (
        "bars like those before",
        "<attributes><measure-style><measure-repeat type=\"start\" slashes=\"1\">1</measure-repeat></measure-style></attributes>|r 8|/|<attributes><measure-style><measure-repeat type=\"stop\"/></measure-style></attributes>|C5 8",
    ),
    (
        "rests of several bars",
        "<attributes><measure-style><multiple-rest use-symbols=\"no\">2</multiple-rest></measure-style></attributes>|r 8|/|r 8",
    ),
    (
        "what nobody knows",
        concat!(
            "<!-- kept --><figured-bass><figure><figure-number>6</figure-number></figure></figured-bass>|C5 8 <notations><technical><heel/></technical><other-notation type=\"single\">x</other-notation></notations><lyric><text>Ah</text></lyric>|<?kept too?>|<harmony><root><root-step>F</root-step></",
            "root><kind text=\"m\">minor</kind></harmony>"
        ),
    ),
];

/// A score with a construct in its horn, a flute beside it.
pub fn source(construct: &str) -> String {
    let mut bars = vec![[HORN, &note("C5 8", "<type>whole</type>")].concat(), String::new()];
    for piece in construct.split('|') {
        match piece {
            "/" => bars.push(String::new()),
            piece => bars.last_mut().unwrap().push_str(&element(piece)),
        }
    }
    let horn: String = (1..).zip(&bars).map(|(number, inside)| bar(number, inside)).collect();
    let flute = [&HORN[..HORN.find("<transpose>").unwrap()], "</attributes>", &note("G5 8", "")].concat();
    score(&[("Corno in Es", &horn), ("Flute", &bar(1, &flute))])
}

/// "C5 2 …" is a note, "+E5 2" one on its stem, "B8" and "F4" steps in time; "P:D5" stands for a pitch.
fn element(piece: &str) -> String {
    let step = |name: &str, by: &str| format!("<{name}><duration>{by}</duration></{name}>");
    if let Some(at) = piece.find("P:") {
        let pitch = written(&piece[at + 2..at + 4]);
        return [&piece[..at], &pitch, &piece[at + 4..]].concat();
    }
    let mut words = piece.splitn(3, ' ');
    match (words.next().unwrap(), words.next(), words.next()) {
        _ if piece.starts_with('<') => piece.to_owned(),
        (back, None, _) if back.starts_with('B') => step("backup", &back[1..]),
        (on, None, _) => step("forward", &on[1..]),
        (pitch, Some(length), inside) => {
            let on_stem = pitch.strip_prefix('+');
            let text = note(&format!("{} {length}", on_stem.unwrap_or(pitch)), inside.unwrap_or_default());
            if on_stem.is_some() { text.replace("<note>", "<note><chord/>") } else { text }
        }
    }
}
