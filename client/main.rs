//! Client.

fn main() {}
