//! The sheet in text and as a table: each value that the view carries, in its own place.

mod csv;
mod full;
mod text;
