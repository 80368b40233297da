//! The trade's tables as constants, made from `data/*.csv` when the crate is built. Each row keeps its source.

use crate::clef::Clef;
use crate::crook::{Crook, CrookFamily, OctaveWord};
use crate::instrument::{
    Blown, Build, Family, Form, Habit, Instrument, InstrumentKind, InstrumentNotes, KeyAsked, KeyMeans,
    LikeHorn, NamesKey, OtherClefs, OtherReading, OwnKey, PitchKind,
};
use crate::key_names::KeyNames;
use crate::notation::{Scheme, Systems};
use crate::pitch::{Step, Tonic};
use crate::reach::{Grade, Production, Reach};
use crate::temperament::Temperament;
use crate::transposition::Transposition;

include!(concat!(env!("OUT_DIR"), "/tables.rs"));
