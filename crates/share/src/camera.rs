//! A link as a QR code, for the camera of a telephone (ISO/IEC 18004).

use core::fmt;
use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

/// The largest code that is made: beyond version 10 a camera at the back of a classroom no longer reads it.
const LARGEST: u8 = 10;

/// Bytes of the longest address that fits, at error correction level M.
pub const LONGEST_ADDRESS: usize = 213;

/// A code of dark and light squares.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CameraCode {
    /// Squares of one side, the quiet zone not counted: 21 to 57.
    pub size: usize,
    /// SVG path data of the dark squares, one unit a square, the upper left corner at 0, 0.
    pub path: String,
}

/// The address does not fit into a code that a camera reads from afar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLongForCamera {
    /// Bytes of the address.
    pub bytes: usize,
}

impl fmt::Display for TooLongForCamera {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "This page is too long for a code that a camera reads from afar ({} letters, {LONGEST_ADDRESS} fit): copy the link, or share fewer columns",
            self.bytes
        )
    }
}

impl core::error::Error for TooLongForCamera {}

impl CameraCode {
    /// The code of an address.
    ///
    /// # Errors
    /// Where it is longer than fits into version 10 at level M.
    pub fn of(address: &str) -> Result<Self, TooLongForCamera> {
        let bytes = address.len();
        let segment = QrSegment::make_bytes(address.as_bytes());
        let code = QrCode::encode_segments_advanced(
            &[segment],
            QrCodeEcc::Medium,
            Version::MIN,
            Version::new(LARGEST),
            None,
            false,
        )
        .map_err(|_| TooLongForCamera { bytes })?;
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
        Ok(Self { size: usize::try_from(size).unwrap_or(0), path })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lookup_fits_and_the_limit_is_the_standards() {
        let code = CameraCode::of("https://example.org/#/read?staff=Corni+in+Es&notes=C4.E4.G4").unwrap();
        assert!((21..=57).contains(&code.size));
        assert_eq!(CameraCode::of(&"a".repeat(LONGEST_ADDRESS)).unwrap().size, 57);
        let error = CameraCode::of(&"a".repeat(LONGEST_ADDRESS + 1)).unwrap_err();
        assert!(error.to_string().contains("214"));
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
