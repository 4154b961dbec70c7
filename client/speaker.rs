//! Who speaks: the login name, and names in call metadata.

use std::{env, fmt::Write, fs};

use tonic::metadata::AsciiMetadataValue;

/// Name of the person who is logged in; nothing where the system knows none.
pub(crate) fn login_name() -> Option<String> {
    ["USER", "LOGNAME", "USERNAME"]
        .into_iter()
        .find_map(|key| env::var(key).ok().filter(|name| !name.is_empty()))
        .or_else(|| {
            // A process started without a login environment still has a user.
            let status = fs::read_to_string("/proc/self/status").ok()?;
            let users = fs::read_to_string("/etc/passwd").ok()?;
            user(&status, &users)
        })
}

fn user(process_status: &str, users: &str) -> Option<String> {
    let uid = process_status
        .lines()
        .find_map(|line| line.strip_prefix("Uid:"))?
        .split_whitespace()
        .next()?;
    users.lines().find_map(|line| {
        let mut fields = line.split(':');
        let name = fields.next()?;
        (fields.nth(1)? == uid).then(|| name.to_owned())
    })
}

/// The name as call metadata, which is ASCII: every other byte, blanks and `%` itself are percent-encoded.
pub(crate) fn metadata(name: &str) -> AsciiMetadataValue {
    let mut encoded = String::with_capacity(name.len());
    for byte in name.bytes() {
        if byte.is_ascii_graphic() && byte != b'%' {
            encoded.push(char::from(byte));
        } else {
            // Writing to a string cannot fail.
            let _ = write!(encoded, "%{byte:02X}");
        }
    }
    AsciiMetadataValue::try_from(encoded).expect("only graphic ASCII is left")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_outside_ascii_travel_percent_encoded() {
        for (name, encoded) in [
            ("ada", "ada"),
            ("Jörg Quill", "J%C3%B6rg%20Quill"),
            ("100%", "100%25"),
            ("a\r\nb", "a%0D%0Ab"),
            ("", ""),
        ] {
            assert_eq!(metadata(name), encoded, "{name}");
        }
    }

    #[test]
    fn a_process_without_a_login_environment_still_has_a_user() {
        let users = "root:x:0:0:root:/root:/bin/sh\nada:x:1000:1000::/home/ada:/bin/sh\n";
        let status = "Name:\tclampbook\nUid:\t1000\t1000\t1000\t1000\n";
        assert_eq!(user(status, users).as_deref(), Some("ada"));
        assert_eq!(user("Uid:\t7\t7\t7\t7\n", users), None);
        assert_eq!(user("", users), None);
    }
}
