//! An answer in notes: a staff to tap, letters, signs and octaves.

use crate::browser::{clock, measure, midi, pointer};
use crate::components::key_action::key_action;
use crate::components::live::{hear, live, press, when};
use crate::components::practise::answer_area::ASKED;
use crate::state::gesture::is_tap;
use crate::state::kept::{Derived, Watched};
use crate::state::keys::KeyAction;
use crate::state::practise::answering::Answering;
use crate::state::practise::asking::{AnswerWay, Draft, other_clef};
use crate::state::practise::picture::AnswerStaff;
use crate::state::session::Session;
use crate::words;
use crookwise_practice::{Answer, Kind};
use crookwise_theory::{Clef, Step, Tonic};
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::html::Div;
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;

/// The pad's element, to which the keyboard goes with each question.
pub const PAD: &str = "answer";

/// Pixels from top to bottom of the staff for the answer, before it is measured.
const USUAL_HEIGHT: f64 = 140.0;

/// Letters in the order of a keyboard.
const LETTERS: [Step; 7] = [Step::C, Step::D, Step::E, Step::F, Step::G, Step::A, Step::B];

/// A pad for one note, or for one of each player.
pub fn note_pad(answering: Answering, clef: Clef, most: usize) -> AnyView {
    let Session { names, .. } = Session::get();
    let clef = Watched::new(clef);
    let height = Watched::new(USUAL_HEIGHT);
    let element = NodeRef::<Div>::new();
    measure::follow_size(element, move |_, now| {
        if now > 0.0 {
            height.set(now);
        }
    });
    let staff =
        Derived::new(move || AnswerStaff::of(clef.get(), &answering.draft.read().notes, height.get()));
    // A finger that scrolls answers nothing: only when it is lifted is it known to have tapped.
    let touched = Watched::new(None);
    let down = hear(move |event: PointerEvent| {
        touched.set(pointer::place(&event).filter(|_| pointer::is_main(&event)));
    });
    let up = hear(move |event: PointerEvent| {
        let ends = touched.get_untracked().zip(pointer::place(&event));
        touched.set(None);
        let tapped =
            ends.filter(|(down, up)| !pointer::is_finger(&event) || is_tap(up.x - down.x, up.y - down.y));
        if let Some((_, up)) = tapped {
            let place = staff.read_untracked().place_at(up.y);
            answering.draw(|draft| draft.place(place, clef.get_untracked()));
        }
    });
    let away = move || hear(move |_: PointerEvent| touched.set(None));
    let letter = move |step: Step| {
        let name = live(move || names.read().tonic(Tonic::new(step, 0)));
        let act = press(move || answering.draw(|draft| draft.letter(step, clef.get_untracked())));
        view! { <button class="letter" on:click=act>{name}</button> }.into_any()
    };
    let tool = |name: &'static str, face: &'static str, act: fn(&mut Draft)| {
        let act = press(move || answering.draw(act));
        let class = if face.chars().count() == 1 { "sign-button" } else { "" };
        view! { <button class=class aria-label=name on:click=act>{face}</button> }.into_any()
    };
    let said = live(move || {
        let names = names.get();
        answering
            .draft
            .read()
            .notes
            .iter()
            .map(|note| names.note_spoken(*note))
            .collect::<Vec<_>>()
            .join(" and ")
    });
    let shown = live(move || {
        let names = names.get();
        answering.draft.read().notes.iter().map(|note| names.note(*note)).collect::<Vec<_>>().join(" · ")
    });
    // What must be written stands where the part stands: under another clef the same note may be another.
    let turns = move || answering.question.map(|one| one.kind != Kind::Writes).unwrap_or(true);
    let turned = move || {
        live(move || {
            if other_clef(clef.get()) == Clef::BASS {
                words::doing::IN_BASS_CLEF
            } else {
                words::doing::IN_TREBLE_CLEF
            }
        })
    };
    view! {
        <div
            class="note-pad"
            id=PAD
            tabindex="0"
            role="application"
            aria-label=words::doing::ANSWER_BY_KEYS
            aria-describedby=ASKED
            on:keydown=hear(move |event| keyed(answering, clef.get_untracked(), most, &event))
        >
            <div class="answer-staff">
                <div
                    class="touched"
                    node_ref=element
                    role="img"
                    aria-label=words::doing::STAFF_FOR_THE_ANSWER
                    on:pointerdown=down
                    on:pointerup=up
                    on:pointercancel=away()
                    on:pointerleave=away()
                >
                    <div class="picture" inner_html=live(move || staff.read().svg.clone())></div>
                </div>
                <div class="beside-answer">
                    {(most == 1).then(|| view! { <p class="big sea" aria-hidden="true">{shown}</p> }.into_any())}
                    <p class="unseen" role="status">{said}</p>
                    {(most > 1).then(|| of_players(answering))}
                    {when(turns, move || {
                        let turn = press(move || clef.set(other_clef(clef.get_untracked())));
                        view! { <button on:click=turn>{turned()}</button> }.into_any()
                    })}
                    {(most == 1 && midi::is_there()).then(|| keyboard(answering))}
                </div>
            </div>
            <div class="pad-buttons">
                <div class="letters" role="group" aria-label=words::doing::LETTERS>{LETTERS.map(letter).into_iter().collect::<Vec<_>>()}</div>
                <div class="tools" role="group" aria-label=words::doing::SIGNS_AND_OCTAVES>
                    {tool(words::doing::FLAT, "♭", |draft| draft.sign(-1))}
                    {tool(words::doing::NATURAL, "♮", |draft| draft.sign(0))}
                    {tool(words::doing::SHARP, "♯", |draft| draft.sign(1))}
                    {tool(words::doing::OCTAVE_UP, words::doing::HIGHER, |draft| draft.octave(1))}
                    {tool(words::doing::OCTAVE_DOWN, words::doing::LOWER, |draft| draft.octave(-1))}
                </div>
            </div>
        </div>
    }
    .into_any()
}

/// A MIDI keyboard answers by itself, once it is listened to.
fn keyboard(answering: Answering) -> AnyView {
    let said = Watched::new("");
    let act = press(move || {
        spawn_local_scoped(async move {
            let heard = midi::listen(move |key| {
                let way = answering.way.read_untracked();
                if matches!(&*way, Some(AnswerWay::Notes { most: 1, .. })) {
                    answering.answer(Some(Answer::Key(key)), clock::now());
                }
            });
            said.set(match heard.await {
                None => words::practise::MIDI_REFUSED,
                Some(0) => words::practise::NO_KEYBOARD,
                Some(_) => words::practise::KEYBOARD_LISTENS,
            });
        });
    });
    view! {
        <button aria-label=words::doing::PLAY_IT_ON_A_MIDI_KEYBOARD on:click=act>{words::doing::MIDI}</button>
        <span class="quiet" role="status">{live(move || said.get())}</span>
    }
    .into_any()
}

/// Of two players: a button for each with the note that is his; pressed is the one that is being made.
fn of_players(answering: Answering) -> AnyView {
    let Session { names, .. } = Session::get();
    let one = |(at, whose): (usize, &'static str)| {
        let note = move || answering.draft.read().notes.get(at).copied();
        let face = live(move || {
            let names = names.get();
            Some(words::doing::players_note(at, note().map(|note| names.note(note))))
        });
        let pressed = live(move || Some((answering.draft.read().at == at).to_string()));
        let act = press(move || answering.draw(|draft| draft.choose(at, 2)));
        view! {
            <button class="of-player" aria-pressed=pressed on:click=act>
                <span class="unseen">{whose}</span>
                {face}
            </button>
        }
        .into_any()
    };
    let both: Vec<AnyView> = words::doing::PLAYERS.into_iter().enumerate().map(one).collect();
    view! { <div class="of-players">{both}</div> }.into_any()
}

fn keyed(answering: Answering, clef: Clef, most: usize, event: &KeyboardEvent) {
    // Enter on a button presses the button.
    let on_pad = event.target() == event.current_target();
    if event.key() == "Enter" && on_pad {
        event.prevent_default();
        answer(answering);
        return;
    }
    let letters = Session::get().names.read_untracked().letters;
    let Some(action) = key_action(event, letters) else { return };
    let act: Box<dyn FnOnce(&mut Draft)> = match action {
        KeyAction::Enter(step) => Box::new(move |draft| draft.letter(step, clef)),
        KeyAction::EnterAltered(step, alter) => Box::new(move |draft| {
            draft.letter(step, clef);
            draft.alter(alter);
        }),
        KeyAction::Select(places) if most > 1 => {
            Box::new(move |draft| draft.choose(draft.at.saturating_add_signed(places), most))
        }
        KeyAction::Move(letters) => Box::new(move |draft| draft.step(letters)),
        KeyAction::Octave(octaves) => Box::new(move |draft| draft.octave(octaves)),
        KeyAction::Alter(semitones) => Box::new(move |draft| draft.alter(semitones)),
        _ => return,
    };
    event.prevent_default();
    answering.draw(act);
}

/// Gives the answer that has been made; where it is none yet, what is missing is said.
pub fn answer(answering: Answering) {
    let Some(way) = answering.way.get_untracked() else { return };
    match answering.draft.get_untracked().answer(&way) {
        Some(answer) => answering.answer(Some(answer), clock::now()),
        None => answering.draw(|draft| draft.lack(&way)),
    }
}
