//! What can be asked of Clampbook, one word per method of the contract.

macro_rules! operations {
    ($($name:ident $kind:ident;)+) => {
        /// An operation; named as its method in the contract.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Operation { $(#[doc = stringify!($name)] $name),+ }

        impl Operation {
            /// Every operation.
            #[cfg(test)]
            pub const ALL: &[Self] = &[$(Self::$name),+];

            /// Its name, as the method's in the contract.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$name => stringify!($name)),+ }
            }

            /// Whether it writes to the journal.
            pub const fn writes(self) -> bool {
                match self { $(Self::$name => operations!(@ $kind)),+ }
            }
        }
    };
    (@ reads) => { false };
    (@ writes) => { true };
}

operations! {
    ListThreads reads;
    GetThread reads;
    ListGrades reads;
    ListNutGrades reads;
    ListConditions reads;
    IdentifyThread reads;
    IdentifyGrade reads;
    IdentifySpanner reads;
    ListLookAlikes reads;
    ListPublishedTorques reads;
    ListHexParts reads;
    ListParentMetals reads;
    ListPublishedTargets reads;
    CreateCondition writes;
    ReviseCondition writes;
    WithdrawCondition writes;
    CreateSpecification writes;
    ReviseSpecification writes;
    WithdrawSpecification writes;
    ImportSpecifications writes;
    ExportSpecifications reads;
    GetSpecification reads;
    ListSpecifications reads;
    ListSpecificationUses reads;
    GetEffectiveValue reads;
    ComputeTorque reads;
    ComputeTorques reads;
    RenderChart reads;
    RestateTorque reads;
    SetWrench reads;
    PlanTightening reads;
    ComputeLongFormTorque reads;
    CheckJoint reads;
    FitLength reads;
    ComputeStretch reads;
    AlignCastellatedNut reads;
    CreateJob writes;
    GetJob reads;
    ListJobs reads;
    CreateAssembly writes;
    CreateJoint writes;
    GetJoint reads;
    ListJoints reads;
    LogMarks writes;
    LogRemoval writes;
    LogAlikeRemovals writes;
    ImportRemovals writes;
    LogDecision writes;
    LogRefit writes;
    LogPieces writes;
    LogFinding writes;
    AnswerCounterpart writes;
    CheckReplacement reads;
    ListPartsToOrder reads;
    ListWaits reads;
    LogPartWanted writes;
    LogPartArrival writes;
    AddPhoto writes;
    GetPhoto reads;
    CorrectEntry writes;
    ListFlags reads;
    ListRules reads;
    GetRule reads;
    ListEntries reads;
    SearchJobs reads;
    ListPositionHistory reads;
    WatchEntries reads;
    GetSheet reads;
    RenderSheet reads;
}

#[cfg(test)]
mod tests {
    use super::Operation;
    use prost_reflect::DescriptorPool;
    use std::collections::BTreeSet;

    #[test]
    fn every_method_of_the_contract_is_an_operation_and_the_other_way_round() {
        let pool = DescriptorPool::decode(clampbook_api::FILE_DESCRIPTOR_SET).expect("descriptors");
        let methods: BTreeSet<String> = pool
            .services()
            .flat_map(|service| {
                service
                    .methods()
                    .map(|m| m.name().to_owned())
                    .collect::<Vec<_>>()
            })
            .collect();
        let operations: BTreeSet<String> =
            Operation::ALL.iter().map(|o| o.name().to_owned()).collect();
        assert_eq!(methods, operations);
    }

    #[test]
    fn what_takes_a_request_id_writes_and_nothing_else_does() {
        let pool = DescriptorPool::decode(clampbook_api::FILE_DESCRIPTOR_SET).expect("descriptors");
        for method in pool
            .services()
            .flat_map(|s| s.methods().collect::<Vec<_>>())
        {
            let takes_id = method.input().get_field_by_name("request_id").is_some();
            let operation = Operation::ALL.iter().find(|o| o.name() == method.name());
            assert_eq!(
                operation.map(|o| o.writes()),
                Some(takes_id),
                "{}",
                method.name()
            );
        }
    }
}
