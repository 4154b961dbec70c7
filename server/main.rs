//! Server.

fn main() {}
