//! The small words of labels that no table names: qualifiers, octave words, conjunctions, numerals, verbs of change,
//! and a few nouns beside those of the table of instruments. Common practice in five languages.

use super::staff::Mechanism;
use crate::crook::OctaveWord;
use crate::instrument::InstrumentKind;

/// What a word stands for in every language: "basso", "bass" and "basse" are one lemma.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Lemma(pub u16);

/// The lemmas that rules name. Numbers from [`lemma::FIRST_FREE`] on are given to the words of the tables.
pub(super) mod lemma {
    use super::Lemma;

    pub(crate) const SMALL: Lemma = Lemma(0);
    pub(crate) const GREAT: Lemma = Lemma(1);
    pub(crate) const SOLO: Lemma = Lemma(2);
    pub(crate) const ALTO: Lemma = Lemma(3);
    pub(crate) const CONTRALTO: Lemma = Lemma(4);
    pub(crate) const TENOR: Lemma = Lemma(5);
    pub(crate) const SOPRANO: Lemma = Lemma(6);
    pub(crate) const SOPRANINO: Lemma = Lemma(7);
    pub(crate) const MEZZO: Lemma = Lemma(8);
    pub(crate) const BARITONE: Lemma = Lemma(9);
    pub(crate) const BASS: Lemma = Lemma(10);
    pub(crate) const CONTRABASS: Lemma = Lemma(11);
    pub(crate) const CONTRA: Lemma = Lemma(12);
    pub(crate) const BASSET: Lemma = Lemma(13);
    pub(crate) const LOVE: Lemma = Lemma(14);
    pub(crate) const HUNT: Lemma = Lemma(15);
    pub(crate) const ENGLISH: Lemma = Lemma(16);
    pub(crate) const THIRD: Lemma = Lemma(17);
    pub(crate) const FIFTH: Lemma = Lemma(18);
    pub(crate) const POST: Lemma = Lemma(19);
    pub(crate) const SWEET: Lemma = Lemma(20);
    pub(crate) const WAGNER: Lemma = Lemma(21);
    pub(crate) const MELODY: Lemma = Lemma(22);
    pub(crate) const DOUBLE: Lemma = Lemma(23);
    pub(crate) const PISTONS: Lemma = Lemma(24);
    pub(crate) const GERMAN: Lemma = Lemma(25);
    pub(crate) const FRENCH: Lemma = Lemma(26);
    pub(crate) const RETUNED: Lemma = Lemma(27);
    pub(crate) const OLD_TREBLE: Lemma = Lemma(28);
    pub(crate) const VOICE: Lemma = Lemma(29);
    pub(crate) const CROSS: Lemma = Lemma(30);
    pub(crate) const PRINCIPAL: Lemma = Lemma(31);
    pub(crate) const SLIDE: Lemma = Lemma(32);
    pub(crate) const FIGURED: Lemma = Lemma(33);
    pub(crate) const CHOIR: Lemma = Lemma(34);
    pub(crate) const MILITARY: Lemma = Lemma(35);
    pub(crate) const ROLLED: Lemma = Lemma(36);
    pub(crate) const CLEAR: Lemma = Lemma(37);
    /// The first lemma that names an instrument by itself.
    pub(crate) const FIRST_HEAD: Lemma = Lemma(40);
    pub(crate) const FLUTE: Lemma = Lemma(40);
    pub(crate) const OBOE: Lemma = Lemma(41);
    pub(crate) const CLARINET: Lemma = Lemma(42);
    pub(crate) const BASSOON: Lemma = Lemma(43);
    pub(crate) const HORN: Lemma = Lemma(44);
    pub(crate) const TRUMPET: Lemma = Lemma(45);
    pub(crate) const CORNET: Lemma = Lemma(46);
    pub(crate) const TROMBONE: Lemma = Lemma(47);
    pub(crate) const TUBA: Lemma = Lemma(48);
    pub(crate) const SAX: Lemma = Lemma(49);
    pub(crate) const CELLO: Lemma = Lemma(50);
    pub(crate) const VIOLA: Lemma = Lemma(51);
    pub(crate) const VIOLIN: Lemma = Lemma(52);
    pub(crate) const TIMPANI: Lemma = Lemma(53);
    pub(crate) const SAXHORN: Lemma = Lemma(54);
    pub(crate) const SMALL_DRUM: Lemma = Lemma(55);
    /// From here on the lexicon numbers the words that it finds in the tables.
    pub(crate) const FIRST_FREE: u16 = 100;
}

impl Lemma {
    /// It names an instrument by itself; the others say which kind.
    pub(super) fn is_head(self) -> bool {
        self >= lemma::FIRST_HEAD
    }
}

/// The lemma of the words that name an instrument of a kind by themselves.
pub(super) const fn lemma_of(kind: InstrumentKind) -> Option<Lemma> {
    Some(match kind {
        InstrumentKind::Flute => lemma::FLUTE,
        InstrumentKind::Oboe => lemma::OBOE,
        InstrumentKind::Clarinet => lemma::CLARINET,
        InstrumentKind::BassClarinet => return None,
        InstrumentKind::Saxophone => lemma::SAX,
        InstrumentKind::Bassoon => lemma::BASSOON,
        InstrumentKind::Horn => lemma::HORN,
        InstrumentKind::Trumpet => lemma::TRUMPET,
        InstrumentKind::Cornet => lemma::CORNET,
        InstrumentKind::Trombone => lemma::TROMBONE,
        InstrumentKind::Tuba => lemma::TUBA,
        InstrumentKind::Timpani => lemma::TIMPANI,
        InstrumentKind::Violin => lemma::VIOLIN,
        InstrumentKind::Viola => lemma::VIOLA,
        InstrumentKind::Cello => lemma::CELLO,
        InstrumentKind::Contrabass => lemma::CONTRABASS,
    })
}

/// What a word does in a label.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    /// Names an instrument or its kind.
    Noun(Lemma),
    /// Says which octave, and nothing else.
    Octave(OctaveWord),
    /// Natural or valves.
    Mechanism(Mechanism),
    /// Calls for a change, before the new key.
    Change,
    /// Calls for a change, after the new key.
    ChangeAfter,
    /// What follows within the brackets tells how it once was.
    Aside,
    /// The key that follows is not meant.
    Not,
    /// Known, and says nothing about the staff.
    Ignored,
    /// Names something else: a thing without pitch, a choir, an instrument that the table does not have. Known here
    /// so that it is not taken for a slip.
    Other,
    /// Joins two.
    And,
    /// Stands before a key.
    In,
    /// Joins the words of one name.
    Link,
    /// First, second, third.
    Ordinal(u32),
    /// Two, three, four.
    Cardinal(u32),
}

use OctaveWord::{Alto, Basso};
use Role::{And, Aside, Cardinal, Change, ChangeAfter, Ignored, In, Link, Not, Noun, Octave, Ordinal};

/// Words by what they do, folded, parted by spaces.
pub(super) const WORDS: &[(Role, &str)] = &[
    (
        Noun(lemma::SMALL),
        "piccolo piccola piccoli piccole piccolos kleine kleiner kleines petit petite petits petites small picc",
    ),
    (Noun(lemma::GREAT), "grande grandi grandes grand grands gran grosse grosser grosses great large gr"),
    (
        Noun(lemma::PRINCIPAL),
        "principale principali principal principals principaux principales prinzipal prinzipale",
    ),
    (Noun(lemma::SOLO), "solo soli solos sola sole"),
    (Noun(lemma::ALTO), "alto alta alti alte altos altas alt"),
    (Noun(lemma::CONTRALTO), "contralto contralta contralti contralte contraltos"),
    (Noun(lemma::TENOR), "tenor tenore tenori tenors tenores"),
    (Noun(lemma::SOPRANO), "soprano soprani sopranos sopran soprane soprana descant"),
    (Noun(lemma::SOPRANINO), "sopranino sopranini sopraninos"),
    (Noun(lemma::MEZZO), "mezzo"),
    (Noun(lemma::BARITONE), "baritone baritono baritoni baritonos baryton barytons bariton baritones"),
    (Noun(lemma::BASS), "bass basso bassi basse basses bassa bajo bajos baja bajas"),
    (
        Noun(lemma::CONTRABASS),
        "contrabass contrabbasso contrabbassi contrabasso contrabassi contrebasse contrebasses contrabasse kontrabass kontrabasse \
         contrabajo contrabajos contrabbassa",
    ),
    (Noun(lemma::CONTRA), "contra kontra contre"),
    (Noun(lemma::BASSET), "basset bassetto bassetti bassett"),
    (Noun(lemma::LOVE), "amore amour amor liebes am"),
    (Noun(lemma::HUNT), "caccia chasse caza jagd hunting hunt"),
    (
        Noun(lemma::ENGLISH),
        "english inglese inglesi anglais anglaise ingles ingleses englisch englische englisches",
    ),
    (Noun(lemma::THIRD), "terz terzino terzini tierce tercera third"),
    (Noun(lemma::FIFTH), "quint quinte"),
    (Noun(lemma::POST), "post posta poste postiglione"),
    (Noun(lemma::SWEET), "dolce dolci dulce dulces bec block"),
    (
        Noun(lemma::WAGNER),
        "wagner wagners wagnerienne wagneriennes wagneriana wagnerianas wagneriane wagnerian",
    ),
    (Noun(lemma::MELODY), "melody"),
    (Noun(lemma::DOUBLE), "double doppel"),
    (Noun(lemma::PISTONS), "pistons piston pistone pistoni pistones"),
    (Noun(lemma::RETUNED), "scordatura scordata scordate umgestimmt tuned semitone up"),
    (Noun(lemma::OLD_TREBLE), "old treble clef habit"),
    (Noun(lemma::VOICE), "voice voices voce voci voix stimme stimmen voz voces"),
    (Noun(lemma::SLIDE), "tirarsi zug coulisse varas slide"),
    (
        Noun(lemma::FIGURED),
        "continue numerato numerata cifrato cifrado chiffree chiffre beziffert bezifferter bezifferte general figured thorough \
         through",
    ),
    (Noun(lemma::MILITARY), "militare militari militaire militaires militar militares military"),
    (Noun(lemma::ROLLED), "rullante rullanti roulante roulantes rodante"),
    (Noun(lemma::CLEAR), "chiara claire clara"),
    (Noun(lemma::SMALL_DRUM), "tamburo tamburi tambour tambours tambor tambores"),
    (Noun(lemma::CHOIR), "coro cori coros chor chore choeur choeurs choir choirs chorus choruses"),
    (Noun(lemma::CROSS), "traverso traversi traversa traverse traversiere traversieres traversiera quer"),
    (Noun(lemma::GERMAN), "german"),
    (Noun(lemma::FRENCH), "french"),
    (Noun(lemma::SAX), "sax saxophone saxophones saxophon saxophonen sassofono sassofoni saxofon saxofones"),
    (Noun(lemma::SAXHORN), "saxhorn saxhorns flicorno flicorni"),
    (
        Octave(Alto),
        "hoch hohe hohes hohem hoher aigu aigus aigue aigues acuto acuti acuta acute haut hauts haute agudo agudos aguda high",
    ),
    (Octave(Basso), "tief tiefe tiefes tiefem tiefer grave graves gravi bas low"),
    (
        Role::Mechanism(Mechanism::Valves),
        "ventil valve valves valved cromatico cromatici cromatica cromatiche chromatique chromatiques chromatisch \
         chromatische chromatisches chromatic cilindri cylindres cylindre cilindros macchina valvulas ventilli",
    ),
    (
        Role::Mechanism(Mechanism::Natural),
        "natur naturale naturali naturel naturels naturelle naturelles natural naturales naturhaft simple simples \
         semplice semplici wald inventions hand keyless",
    ),
    (
        Change,
        "muta mutano mutan mutare mutando cambia cambian cambiano cambiare cambiar cambiando changez changer change changes \
         changing nimmt nehmen take takes prend prennent prenez wechselt poi puis dann luego then",
    ),
    (ChangeAfter, "umstimmen wechseln umgestellt"),
    (Aside, "orig original originally originale ursprunglich"),
    (Not, "not nicht non"),
    (
        Ignored,
        "nb sic obbligato obbligati obligato obligati oblig obbl concertante concertanti concertato ripieno ripieni tutti dur major maggiore majeur \
         mayor stimmung ton tono tons tuning key ad lib libitum parte part parts \
         partie instr strumenti unis unisono cordes cuerdas staff notation divisi divise divisa geteilt div",
    ),
    (
        Role::Other,
        "cornetto cornetti zink zinken theorbe tiorba liuto laute mandolino gamba fisarmonica banda",
    ),
    (And, "e et ed y und u and con mit with avec"),
    (In, "in en ex to into auf aus im"),
    (Link, "a d de da di du del della dei au aux der die das il le les gli los las el the"),
    (
        Ordinal(1),
        "primo prima primi erstes erste erster first premier premiere premiers primero primer primera",
    ),
    (
        Ordinal(2),
        "secondo seconda secondi zweites zweite zweiter second seconde deuxieme segundo segunda secundo",
    ),
    (Ordinal(3), "terzo terza drittes dritte dritter troisieme tercero tercer"),
    (Ordinal(4), "quarto quarta viertes vierte vierter fourth quatrieme cuarto cuarta"),
    (Cardinal(1), "un una uno une ein eine one"),
    (Cardinal(2), "due zwei deux dos two zwey"),
    (Cardinal(3), "tre drei trois tres three"),
    (Cardinal(4), "quattro vier quatre cuatro four"),
    (Cardinal(5), "cinque funf cinq cinco five"),
    (Cardinal(6), "sei sechs six seis"),
    (Cardinal(8), "otto acht huit ocho eight"),
];

/// Flat, sharp and natural in short.
pub(super) const MORE_ALTERATIONS: &[(&str, i32)] =
    &[("bem", -1), ("bemoll", -1), ("dies", 1), ("sost", 1), ("nat", 0)];

/// Names of keys beside those of the table: Dutch and German forms that no crook list has.
pub(super) const MORE_KEYS: &[(&str, &str)] = &[
    ("dis", "Eb"),
    ("bes", "Bb"),
    ("hes", "Bb"),
    ("gis", "G#"),
    ("ais", "A#"),
    ("ces", "Cb"),
    ("fes", "Fb"),
];
