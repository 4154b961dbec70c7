//! What can be asked of Clampbook, one word per method of the contract.

macro_rules! operations {
    ($($name:ident $kind:ident;)+) => {
        /// An operation; named as its method in the contract.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Operation { $(#[doc = stringify!($name)] $name),+ }

        impl Operation {
            /// Every operation.
            pub const ALL: &[Self] = &[$(Self::$name),+];

            /// Its name, as the method's in the contract.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$name => stringify!($name)),+ }
            }

            /// Whether it writes to the journal.
            #[must_use]
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
