//! Hashes as text.

use std::fmt::Write;

/// Bytes as lower-case hexadecimal digits.
pub(crate) fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        // Writing into a String can't fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use sha2::{Digest, Sha256};

    #[test]
    fn hex_agrees_with_the_published_hash() {
        // FIPS 180-4's own example: SHA-256 of "abc".
        let hash = hex(&Sha256::digest(b"abc"));
        let published = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(hash, published);
    }
}
