//! A link as a QR code, for the camera of a telephone (ISO/IEC 18004).

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

/// The largest code that is made: beyond version 10 a camera at the back of a classroom no longer reads it.
const LARGEST: u8 = 10;

/// Bytes of the longest address that fits, at error correction level M; more where packed letters stand at its end.
pub const LONGEST_ADDRESS: usize = 213;

/// Bits that the largest code holds at that level.
const ROOM: usize = 216 * 8;

/// Bits in front of bytes, and in front of capitals and digits: what follows, and how much of it.
const HEADS: [usize; 2] = [4 + 16, 4 + 11];

/// From so many capitals and digits at the end on it is worth saying that there are only such.
const WORTH: usize = 5;

/// An address as the standard has letters: bytes, and capitals and digits at the end at 5.5 bits each.
fn segments(address: &str) -> Vec<QrSegment> {
    let capitals =
        address.bytes().rev().take_while(|byte| byte.is_ascii_digit() || byte.is_ascii_uppercase());
    let (front, end) =
        address.split_at(address.len() - Some(capitals.count()).filter(|&count| count > WORTH).unwrap_or(0));
    let mut segments = vec![QrSegment::make_bytes(front.as_bytes())];
    if !end.is_empty() {
        segments.push(QrSegment::make_alphanumeric(end));
    }
    segments
}

/// Whether there is a code of an address.
pub(crate) fn fits(address: &str) -> bool {
    bits(&segments(address)) <= ROOM
}

/// Bits that segments take in the largest code.
fn bits(segments: &[QrSegment]) -> usize {
    segments.iter().zip(HEADS).map(|(segment, head)| head + segment.data().len()).sum()
}

/// A code of dark and light squares.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CameraCode {
    /// Squares of one side, the quiet zone not counted: 21 to 57.
    pub size: usize,
    /// SVG path data of the dark squares, one unit a square, the upper left corner at 0, 0.
    pub path: String,
}

impl CameraCode {
    /// The code of an address; `None` where it is longer than fits into version 10 at level M.
    #[must_use]
    pub fn of(address: &str) -> Option<Self> {
        let code = QrCode::encode_segments_advanced(
            &segments(address),
            QrCodeEcc::Medium,
            Version::MIN,
            Version::new(LARGEST),
            None,
            false,
        )
        .ok()?;
        let size = code.size();
        let mut path = String::new();
        for y in 0..size {
            let mut x = 0;
            while x < size {
                let start = x;
                while x < size && code.get_module(x, y) {
                    x += 1;
                }
                if x > start {
                    path.push_str(&format!("M{start} {y}h{}v1h-{}z", x - start, x - start));
                }
                x += 1;
            }
        }
        Some(Self { size: usize::try_from(size).unwrap_or(0), path })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lookup_fits_and_the_limit_is_the_standards() {
        let code = CameraCode::of("https://example.org/#/read?staff=Corni+in+Es&notes=C4.E4.G4").unwrap();
        assert!((21..=57).contains(&code.size));
        for (letter, most) in [("a", LONGEST_ADDRESS), ("A", 307)] {
            assert_eq!(CameraCode::of(&letter.repeat(most)).unwrap().size, 57);
            assert_eq!(CameraCode::of(&letter.repeat(most + 1)), None);
            assert!(fits(&letter.repeat(most)) && !fits(&letter.repeat(most + 1)));
        }
    }

    #[test]
    fn capitals_at_the_end_take_less_room() {
        let size = |address: String| CameraCode::of(&address).unwrap().size;
        let (capitals, others) = ("A1".repeat(70), "a1".repeat(70));
        assert!(
            size(format!("https://example.org/#/read?v=3.{capitals}"))
                < size(format!("https://example.org/#/read?v=3.{others}"))
        );
        // Never more, however few there are.
        for count in 0..20 {
            let whole = format!("https://example.org/#{}", "A".repeat(count));
            let bytes = QrSegment::make_bytes(whole.as_bytes());
            assert!(bits(&segments(&whole)) <= bits(&[bytes]), "{count}");
        }
    }

    #[test]
    fn the_three_corners_are_where_a_camera_looks_for_them() {
        let code = CameraCode::of("crookwise").unwrap();
        // Row 0 begins and ends with the seven dark squares of a corner.
        assert!(code.path.starts_with("M0 0h7v1h-7z"));
        assert!(code.path.contains(&format!("M{} 0h7v1h-7z", code.size - 7)));
        assert!(code.path.contains(&format!("M0 {}h7v1h-7z", code.size - 7)));
    }
}
