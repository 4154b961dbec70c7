//! The contract against the use cases: methods and operations, reasons and their names, one to one.

use clampbook_api::{FILE_DESCRIPTOR_SET, reason};
use clampbook_app::{Operation, Reason};
use prost_reflect::{DescriptorPool, MethodDescriptor};
use std::collections::BTreeSet;

fn methods() -> Vec<MethodDescriptor> {
    let pool = DescriptorPool::decode(FILE_DESCRIPTOR_SET).expect("descriptors");
    pool.services()
        .flat_map(|service| service.methods().collect::<Vec<_>>())
        .collect()
}

#[test]
fn every_method_of_the_contract_is_an_operation_and_the_other_way_round() {
    let methods: BTreeSet<String> = methods().iter().map(|m| m.name().to_owned()).collect();
    let operations: BTreeSet<String> = Operation::ALL.iter().map(|o| o.name().to_owned()).collect();
    assert_eq!(methods, operations);
}

#[test]
fn what_takes_a_request_id_writes_and_nothing_else_does() {
    for method in methods() {
        let takes_id = method.input().get_field_by_name("request_id").is_some();
        let operation = Operation::ALL.iter().find(|o| o.name() == method.name());
        let writes = operation.map(|o| o.writes());
        assert_eq!(writes, Some(takes_id), "{}", method.name());
    }
}

#[test]
fn every_reason_is_in_the_contract_and_the_other_way_round() {
    let ours: Vec<&str> = Reason::ALL.iter().map(|reason| reason.name()).collect();
    let contract: Vec<&str> = reason::ALL.iter().map(|(name, _)| *name).collect();
    assert_eq!(ours, contract);
    for (name, meaning) in reason::ALL {
        assert!(meaning.len() > 10, "{name} says what it means");
    }
}
