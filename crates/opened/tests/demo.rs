//! The demo movement, asked what the page asks of it.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_opened::{
    Answer, Ask, AuditStaff, Correction, MadeHow, OutPitch, Progress, Reads, ScoreHolder, StaffRow, Summary,
    wire,
};
use crookwise_score::score::Score;
use crookwise_share::crooks::{CrooksLink, CrooksWanted};
use crookwise_share::{Link, ReadPage};

use kit::{DEMO, opened};

fn ask(holder: &mut ScoreHolder, ask: Ask) -> Answer {
    // As it travels.
    let bytes = wire::write(&ask);
    drop(ask);
    let ask = wire::read(&bytes).unwrap();
    let answer = holder.answer(ask, Vec::new(), &mut |_| {});
    wire::read(&wire::write(&answer)).unwrap()
}

fn staves(summary: &Summary) -> Vec<&StaffRow> {
    summary.parts.iter().flat_map(|part| &part.staves).collect()
}

fn of(summary: &Summary, label: &str) -> StaffRow {
    staves(summary).into_iter().find(|staff| staff.label == label).cloned().unwrap_or_else(|| {
        panic!("{:?}", staves(summary).iter().map(|staff| &staff.label).collect::<Vec<_>>())
    })
}

fn audit(holder: &mut ScoreHolder) -> Vec<AuditStaff> {
    let Answer::Audit(audit) = ask(holder, Ask::Audit { valves_too: false }) else { panic!() };
    audit
}

fn page(answer: Answer) -> ReadPage {
    let Answer::Page(text) = answer else { panic!("{answer:?}") };
    match Link::decode_kept(&text) {
        Ok(Some(Link::Read(page))) => *page,
        other => panic!("{other:?}"),
    }
}

fn note_at(page: &ReadPage, column: usize) -> crookwise_theory::Printed {
    match page.passage.staves()[0].cells()[column].of(0) {
        crookwise_score::Event::Note(printed) => printed,
        other => panic!("{other:?}"),
    }
}

fn imported(file: Answer) -> Score {
    let Answer::File(bytes) = file else { panic!("{file:?}") };
    crookwise_musicxml::import(&bytes).unwrap().score
}

#[test]
fn a_file_is_opened_with_its_progress_and_its_parts() {
    let mut told = Vec::new();
    let mut holder = ScoreHolder::default();
    let answer = holder.answer(Ask::Open(String::new()), DEMO.to_vec(), &mut |at| told.push(at));
    assert!(matches!(answer, Answer::Score(_)));
    assert_eq!(told, [Progress::Unpacking, Progress::Reading, Progress::Listing]);
    let (_, summary) = opened("");
    assert!(summary.bars.len() >= 48, "{}", summary.bars.len());
    assert!(!summary.letters.is_empty() && !summary.title.is_empty());
    assert!(summary.id.chars().all(|letter| letter.is_ascii_alphanumeric()));
    // Brass and drums stand out, woodwinds and strings do not.
    assert!(of(&summary, "Corno I in D").stands_out);
    assert!(staves(&summary).iter().any(|staff| staff.label.starts_with("Timpani") && staff.stands_out));
    assert!(staves(&summary).iter().any(|staff| staff.label.starts_with("Viol") && !staff.stands_out));
    // Its drums are printed by their names.
    assert!(staves(&summary).iter().all(|staff| staff.as_printed == staff.label.starts_with("Timpani")));
    assert!(staves(&summary).iter().any(|staff| !staff.changes.is_empty()));
}

#[test]
fn what_is_no_score_is_refused_with_a_sentence_and_nothing_is_open() {
    let mut holder = ScoreHolder::default();
    for (file, word) in [(&b"MThd\0\0\0\x06"[..], "MIDI"), (b"", "empty"), (b"\x89PNG", "MusicXML")] {
        let answer = holder.answer(Ask::Open(String::new()), file.to_vec(), &mut |_| {});
        let Answer::No(why) = answer else { panic!("{answer:?}") };
        assert!(why.contains(word), "{why}");
    }
    assert!(matches!(ask(&mut holder, Ask::Audit { valves_too: false }), Answer::No(_)));
    assert_eq!(wire::read::<Ask>(b"\xff\xff\xff"), None);
}

#[test]
fn old_bass_notation_is_offered_read_and_taken_back() {
    let (mut holder, summary) = opened("");
    let row = staves(&summary).into_iter().find(|staff| staff.old_bass.is_some()).unwrap().clone();
    let old = row.old_bass.clone().unwrap();
    assert!(old.notes > 0 && !old.bars.is_empty() && !old.is_read);
    let bar = old.bars[0];
    let printed = |answer: Answer| {
        let page = page(answer);
        let resolved = crookwise_score::ResolvedStaff::of(&page.passage, 0, Default::default());
        let column = page.selected.unwrap();
        let note = note_at(&page, column);
        resolved.place_at(column, 0).unwrap().read(note, Default::default(), None).sounding.0
    };
    let look = || Ask::Page { staves: vec![row.staff], bars: (bar, bar) };
    let before = printed(ask(&mut holder, look()));
    let correction = Correction { staff: row.staff, old_bass: true, ..Correction::default() };
    let text = Correction::write(std::slice::from_ref(&correction));
    let Answer::Score(corrected) = ask(&mut holder, Ask::Correct(text)) else { panic!() };
    // It is offered still, so that it can be taken back.
    let again =
        staves(&corrected).into_iter().find(|staff| staff.staff == row.staff).unwrap().old_bass.clone();
    assert_eq!(again.map(|old| (old.bars, old.is_read)), Some((old.bars.clone(), true)));
    let after = printed(ask(&mut holder, look()));
    assert_eq!(crookwise_theory::Interval::between(before, after), crookwise_theory::Interval::OCTAVE);
    let Answer::Score(back) = ask(&mut holder, Ask::Correct(String::new())) else { panic!() };
    assert_eq!(*back, summary);
    assert_eq!(printed(ask(&mut holder, look())), before);
}

#[test]
fn a_label_that_is_corrected_governs_audit_page_and_what_goes_out() {
    let (mut holder, summary) = opened("");
    let horn = of(&summary, "Corno I in D");
    let printed = |answer| planned(answer).printed[0].crook.name;
    let in_crooks = || Ask::Crooks { bars: None, title: String::new() };
    assert_eq!(printed(ask(&mut holder, in_crooks())), "D");
    let file = ask(&mut holder, Ask::Out { staves: vec![horn.staff], pitch: OutPitch::Sounding });
    let correction =
        Correction { staff: horn.staff, label: Some("Corno I in Es".into()), ..Correction::default() };
    let Answer::Score(corrected) = ask(&mut holder, Ask::Correct(Correction::write(&[correction]))) else {
        panic!()
    };
    assert_eq!(of(&corrected, "Corno I in Es").label_by_file, "Corno I in D");
    assert_eq!(audit(&mut holder)[0].crooks[0].crook, "Horn in E-flat");
    assert_eq!(printed(ask(&mut holder, in_crooks())), "E-flat");
    let shown = page(ask(&mut holder, Ask::Page { staves: vec![horn.staff], bars: (0, 3) }));
    assert_eq!(shown.passage.staves()[0].label, "Corno I in Es");
    let first = |score: &Score| {
        let notes = score.staves().next().unwrap().notes();
        notes.iter().find_map(|(_, note)| note.printed).unwrap().0
    };
    let out = ask(&mut holder, Ask::Out { staves: vec![horn.staff], pitch: OutPitch::Sounding });
    // A horn in E-flat sounds a semitone above one in D.
    let (before, after) = (first(&imported(file)), first(&imported(out)));
    assert_eq!(crookwise_theory::Interval::between(before, after).semitones, 1);
    // As it is written nothing but the parts that were left out is gone.
    let written =
        imported(ask(&mut holder, Ask::Out { staves: vec![horn.staff], pitch: OutPitch::AsWritten }));
    assert_eq!(written.parts().len(), 1);
    let Answer::File(midi) = ask(&mut holder, Ask::Midi { staves: vec![horn.staff] }) else { panic!() };
    assert!(midi.starts_with(b"MThd"));
}

#[test]
fn corrections_that_were_kept_hold_from_the_beginning() {
    let (_, summary) = opened("staff=0&label=Oboe");
    assert_eq!(staves(&summary)[0].label, "Oboe");
    assert_eq!(Correction::read("staff=x&label=Oboe"), []);
    assert_eq!(Correction::read("label=Oboe&staff=2&bass=old&unknown=1")[0].staff, 2);
    let reads = |text: &str| Correction::read(text)[0].reads.clone();
    assert_eq!(reads("staff=1&reads=nothing_1_2"), Reads::AsGiven);
    assert!(matches!(reads("staff=1&reads=horn_-1_-2"), Reads::Chosen(_)));
}

#[test]
fn every_row_of_the_audit_leads_to_its_notes() {
    let (mut holder, _) = opened("");
    let all = audit(&mut holder);
    assert!(all.len() >= 6, "four horns and two trumpets: {}", all.len());
    assert!(all.iter().any(|staff| !staff.changes.is_empty()));
    let mut looked_at = 0;
    for staff in &all {
        for line in &staff.crooks {
            assert_eq!(line.notes.iter().map(|row| row.notes.len()).sum::<usize>(), line.attacks as usize);
            for row in &line.notes {
                let (note, _) = row.notes[0];
                let page = page(ask(&mut holder, Ask::Note { staff: staff.staff, note }));
                let column = page.selected.unwrap();
                let resolved = crookwise_score::ResolvedStaff::of(&page.passage, 0, Default::default());
                let printed = note_at(&page, column);
                let reading = resolved.place_at(column, 0).unwrap().read(printed, Default::default(), None);
                let making = reading.making.unwrap();
                let partial = making.partial.map(crookwise_theory::Partial::number);
                match &row.how {
                    MadeHow::Open(open) | MadeHow::Corrected(open) => assert_eq!(partial, Some(*open)),
                    MadeHow::Made(written, how) => {
                        assert_eq!(&reading.written.to_string(), written);
                        assert_eq!(making.production.words(), how);
                    }
                    MadeHow::OutOfReach(written) => {
                        assert_eq!((partial, &reading.written.to_string()), (None, written));
                    }
                }
                looked_at += 1;
            }
        }
    }
    assert!(looked_at > 30, "{looked_at}");
    assert!(matches!(ask(&mut holder, Ask::Note { staff: 0, note: u32::MAX }), Answer::No(_)));
}

#[test]
fn a_page_says_where_its_bars_begin() {
    let (mut holder, summary) = opened("");
    let horn = of(&summary, "Corno I in D");
    let bars = |page: &ReadPage| {
        let all = page.passage.columns().iter().filter_map(|column| column.bar);
        all.map(|bar| bar.to_string()).collect::<Vec<_>>()
    };
    let shown = page(ask(&mut holder, Ask::Page { staves: vec![horn.staff], bars: (0, 3) }));
    assert_eq!(bars(&shown), summary.bars[..4]);
    assert!(shown.passage.columns()[0].bar.is_some());
    // A note out of the audit stands in its bar.
    let row = audit(&mut holder).into_iter().find(|row| row.staff == horn.staff).unwrap();
    let (note, bar) = row.crooks[0].notes[0].notes[0];
    let shown = page(ask(&mut holder, Ask::Note { staff: horn.staff, note }));
    let seen = shown.passage.bar_at(shown.selected.unwrap()).map(|number| number.to_string());
    assert_eq!(seen.as_ref(), summary.bars.get(bar as usize));
}

#[test]
fn a_page_says_what_it_cannot_hold() {
    let (mut holder, summary) = opened("");
    let all: Vec<u32> = staves(&summary).iter().map(|staff| staff.staff).collect();
    let last = u32::try_from(summary.bars.len()).unwrap() - 1;
    let Answer::No(why) = ask(&mut holder, Ask::Fit { staves: vec![0], bars: (0, last) }) else { panic!() };
    assert!(why.contains("columns"), "{why}");
    assert!(matches!(
        ask(&mut holder, Ask::Fit { staves: all[..3].into(), bars: (0, 1) }),
        Answer::Fits(1..)
    ));
    for wrong in [(vec![], (0, 1)), (vec![999], (0, 1)), (vec![0], (3, 2)), (vec![0], (0, u32::MAX))] {
        assert!(matches!(ask(&mut holder, Ask::Fit { staves: wrong.0, bars: wrong.1 }), Answer::No(_)));
    }
}

fn planned(answer: Answer) -> CrooksLink {
    let Answer::Crooks(text) = answer else { panic!("{answer:?}") };
    match Link::decode_kept(&text) {
        Ok(Some(Link::Crooks(sent))) => sent.open().unwrap(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn its_horns_and_trumpets_are_handed_to_crooks_as_they_sound() {
    let (mut holder, summary) = opened("");
    let whole = planned(ask(&mut holder, Ask::Crooks { bars: None, title: "Demo".to_owned() }));
    assert_eq!(whole.title, "Demo");
    let numbers: Vec<_> = whole.bars.iter().map(|bar| bar.number.clone()).collect();
    assert_eq!(numbers, summary.bars);
    let notes = |link: &CrooksLink| match &link.wanted {
        CrooksWanted::Notes(notes) => notes.clone(),
        CrooksWanted::Keys(_) => panic!("keys"),
    };
    // With the crooks that are printed for them, which change before bar 13.
    let crooks = |link: &CrooksLink, player: usize| -> Vec<&str> {
        link.printed.iter().filter(|one| one.player == player).map(|one| one.crook.name).collect()
    };
    assert_eq!([0, 2, 4].map(|player| crooks(&whole, player)), [vec!["D"], vec!["F", "G"], vec!["D"]]);
    let all = notes(&whole);
    assert!(all.iter().all(|note| note.player.is_some_and(|player| player < whole.players.len())));
    // Some bars begin where they begin, and have what sounds in them alone.
    let some = planned(ask(&mut holder, Ask::Crooks { bars: Some((8, 15)), title: String::new() }));
    assert_eq!((some.bars.len(), &some.bars[0].number), (8, &summary.bars[8]));
    assert!(some.bars[0].time.is_some());
    let before = whole.bars[..8].iter().fold(0.0, |all, bar| all + bar.length.quarters());
    let end = some.bars.iter().fold(0.0, |all, bar| all + bar.length.quarters());
    let there = all.iter().filter(|note| note.from.quarters() < before + end && note.to.quarters() > before);
    let there: Vec<_> = there.map(|note| (note.sounding, note.player)).collect();
    let some = notes(&some);
    assert_eq!(some.iter().map(|note| (note.sounding, note.player)).collect::<Vec<_>>(), there);
    assert!(!there.is_empty() && some.iter().all(|note| note.from.0 >= 0 && note.to.quarters() <= end));
}
