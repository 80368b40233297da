//! Brotli at its strongest, as a host with precompressed files serves it.

use anyhow::{Context, Result};
use brotli::enc::BrotliEncoderParams;

/// The bytes after brotli, quality 11.
pub fn brotli(bytes: &[u8]) -> Result<Vec<u8>> {
    let params = BrotliEncoderParams {
        quality: 11,
        lgwin: 22,
        size_hint: bytes.len(),
        ..BrotliEncoderParams::default()
    };
    let mut packed = Vec::new();
    brotli::BrotliCompress(&mut &bytes[..], &mut packed, &params).context("brotli failed")?;
    Ok(packed)
}

/// Whether a host should send this file compressed: text and wasm shrink, pictures and woff2 are packed already.
pub fn is_worth_it(name: &str) -> bool {
    let ending = name.rsplit('.').next().unwrap_or_default();
    matches!(
        ending,
        "html" | "css" | "musicxml" | "js" | "wasm" | "svg" | "txt" | "json" | "webmanifest" | "ts" | "ico"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_packed_can_be_read_again() {
        let text = "Corni in Es, Corni in D, ".repeat(500);
        let packed = brotli(text.as_bytes()).unwrap();
        assert!(packed.len() < 100);
        let mut read = Vec::new();
        brotli::BrotliDecompress(&mut &packed[..], &mut read).unwrap();
        assert_eq!(read, text.as_bytes());
    }
}
