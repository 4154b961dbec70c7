//! Words for photos.

use serde::{Deserialize, Serialize};

vocabulary! {
    /// Media type of a photo, as registered with IANA.
    MediaType {
        /// JPEG.
        Jpeg = "image/jpeg", "JPEG";
        /// PNG.
        Png = "image/png", "PNG";
        /// WebP.
        Webp = "image/webp", "WebP";
    }
}

impl MediaType {
    /// Recognises a picture by how it begins: JPEG by its first marker (ISO/IEC 10918-1, B.1.1.3), PNG by its signature
    /// (ISO/IEC 15948, 5.2), WebP by its header (RFC 9649, 2.4).
    #[must_use]
    pub fn of(content: &[u8]) -> Option<Self> {
        if content.starts_with(b"\xff\xd8\xff") {
            return Some(Self::Jpeg);
        }
        if content.starts_with(b"\x89PNG\r\n\x1a\n") {
            return Some(Self::Png);
        }
        let is_webp = content.starts_with(b"RIFF") && content.get(8..12) == Some(b"WEBP");
        is_webp.then_some(Self::Webp)
    }
}

#[cfg(test)]
mod tests {
    use super::MediaType;

    #[test]
    fn pictures_are_known_by_how_they_begin() {
        for (content, expected) in [
            (&b"\xff\xd8\xff\xe0\0\x10JFIF"[..], Some(MediaType::Jpeg)),
            (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", Some(MediaType::Png)),
            (b"RIFF\x24\0\0\0WEBPVP8 ", Some(MediaType::Webp)),
            (b"RIFF\x24\0\0\0WAVEfmt ", None),
            (b"RIFF", None),
            (b"\x89PNG\n", None),
            (b"\xff\xd8", None),
            (b"GIF89a", None),
            (b"%PDF-1.7", None),
            (b"<svg>", None),
            (b"", None),
        ] {
            assert_eq!(MediaType::of(content), expected, "{content:?}");
        }
    }
}
