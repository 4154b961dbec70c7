//! Starting point.
