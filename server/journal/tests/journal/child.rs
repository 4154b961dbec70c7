//! Tests that need a process of their own run themselves again as a child.

use crate::support::Shop;
use std::env;
use std::path::PathBuf;
use std::process::Command;

const CHILD: &str = "CLAMPBOOK_STORE_TEST_CHILD";

/// Whether this is the child of the test, and where its journal is.
pub(crate) fn child_of(test: &str) -> Option<PathBuf> {
    let said = env::var(CHILD).ok()?;
    let (name, path) = said.split_once('=')?;
    (name == test).then(|| path.into())
}

/// Runs the test again as a child that may not do what only the superuser may.
pub(crate) fn command_of_nobody(shop: &Shop, test: &str) -> Command {
    let as_given = command(shop, test, "");
    let mut nobody = Command::new("sh");
    // Somebody who is not the superuser stays who they are.
    nobody
        .args([
            "-c",
            "[ $(id -u) = 0 ] && exec setpriv --reuid=65534 --regid=65534 --clear-groups \"$0\" \"$@\"; exec \"$0\" \"$@\"",
            "sh",
        ])
        .args(as_given.get_args())
        .env(CHILD, format!("{test}={}", shop.path().display()));
    nobody
}

/// Runs the test (`chapter::name`) again as a child, after the commands of a shell.
pub(crate) fn command(shop: &Shop, test: &str, before: &str) -> Command {
    let mut command = Command::new("sh");
    command
        .arg("-c")
        .arg(format!("{before}\nexec \"$0\" \"$@\""))
        .arg(env::current_exe().expect("this program has a path"))
        .args(["--exact", test, "--nocapture"])
        .env(CHILD, format!("{test}={}", shop.path().display()));
    command
}
