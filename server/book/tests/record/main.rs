//! The book as a shop would try it: what is said, what follows, what clears it, and what does not.

mod answers;
mod bench;
mod building;
mod built;
mod effective;
mod folding;
mod following;
mod history;
mod hole_stack;
mod judging;
mod ordering;
mod ordering_adds_up;
mod people;
mod photos;
mod registry;
mod rules;
mod rules_of_parts;
mod search;
mod sheet;
mod sheet_published;
mod shop;
mod specifications;
mod spoken;
mod storeys;
mod tightening;
