//! What a class took for what, in words.

use super::names::Names;
use super::{practise, results};
use crookwise_practice::results::{Confusion, Sight, Taken};
use crookwise_practice::{Answer, Question};

/// What stood there and what it was taken for: "Corni in Es", "Corni in E". `example` is a question where it happened.
#[must_use]
pub fn line(one: &Confusion, example: Option<&Question>, names: Names) -> (String, String) {
    let answer = |answer: &Answer| match (answer, example) {
        (Answer::Degree(_), Some(question)) => {
            format!("degree {}", practise::answer(answer, question, names))
        }
        (_, Some(question)) => practise::answer(answer, question, names),
        (_, None) => answer.to_string(),
    };
    let sight = match &one.sight {
        Sight::Staff(staff) => results::asked_on(staff, names),
        Sight::Clef(clef) => clef.name(),
        Sight::Answer(_, right) => answer(right),
        Sight::Page(kind) => practise::kind(*kind).to_owned(),
    };
    let taken = match &one.taken {
        Taken::Label(label) => label.clone(),
        Taken::Clef(clef) => clef.name(),
        Taken::Answer(given) => answer(given),
        Taken::Missed(missed, None) => results::missed(missed),
        Taken::Missed(missed, Some(like)) => format!("{} (as on {like})", results::missed(missed)),
    };
    (sight, taken)
}
