//! `Source`, by hand: an answer cites ten sources or more, each with the same texts of the tables as every other answer,
//! and the generated message would copy each text for each answer.

use crate::v1::Basis;
use prost::bytes::{Buf, BufMut};
use prost::encoding::{
    DecodeContext, WireType, encode_key, encode_varint, encoded_len_varint, int32, key_len,
    skip_field, string,
};
use prost::{DecodeError, Message};
use std::borrow::Cow;

/// Where a value comes from.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Source {
    /// Identifier of the publication in the catalogue, for instance `iso-898-1`.
    pub source: Cow<'static, str>,
    /// Citation as printed: body, number, edition, table.
    pub citation: Cow<'static, str>,
    /// How the value was obtained from it, a [`Basis`].
    pub basis: i32,
    /// What it was used for in this answer, for instance `thread` or `nut factor`; empty in plain listings.
    pub used_for: Cow<'static, str>,
}

const SOURCE: u32 = 1;
const CITATION: u32 = 2;
const BASIS: u32 = 3;
const USED_FOR: u32 = 4;

impl Source {
    /// How the value was obtained; unspecified when this contract does not know the number.
    #[must_use]
    pub fn basis(&self) -> Basis {
        self.basis.try_into().unwrap_or_default()
    }

    fn texts(&self) -> [(u32, &str); 3] {
        [
            (SOURCE, &self.source),
            (CITATION, &self.citation),
            (USED_FOR, &self.used_for),
        ]
    }
}

impl Message for Source {
    fn encode_raw(&self, buf: &mut impl BufMut) {
        for (tag, text) in self.texts() {
            if !text.is_empty() {
                encode_key(tag, WireType::LengthDelimited, buf);
                encode_varint(text.len() as u64, buf);
                buf.put_slice(text.as_bytes());
            }
        }
        if self.basis != 0 {
            int32::encode(BASIS, &self.basis, buf);
        }
    }

    fn merge_field(
        &mut self,
        tag: u32,
        wire_type: WireType,
        buf: &mut impl Buf,
        context: DecodeContext,
    ) -> Result<(), DecodeError> {
        let text = match tag {
            SOURCE => &mut self.source,
            CITATION => &mut self.citation,
            USED_FOR => &mut self.used_for,
            BASIS => return int32::merge(wire_type, &mut self.basis, buf, context),
            _ => return skip_field(wire_type, tag, buf, context),
        };
        string::merge(wire_type, text.to_mut(), buf, context)
    }

    fn encoded_len(&self) -> usize {
        let texts = self
            .texts()
            .into_iter()
            .filter(|(_, text)| !text.is_empty());
        let texts = texts
            .map(|(tag, text)| key_len(tag) + encoded_len_varint(text.len() as u64) + text.len());
        let basis = match self.basis {
            0 => 0,
            basis => int32::encoded_len(BASIS, &basis),
        };
        texts.sum::<usize>() + basis
    }

    fn clear(&mut self) {
        *self = Self::default();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use prost_reflect::{DescriptorPool, DynamicMessage, ReflectMessage, Value};

    /// A message as the contract has it.
    fn by_contract() -> DynamicMessage {
        let pool = DescriptorPool::decode(crate::FILE_DESCRIPTOR_SET).unwrap();
        DynamicMessage::new(pool.get_message_by_name("clampbook.v1.Source").unwrap())
    }

    fn full() -> Source {
        Source {
            source: "iso-724".into(),
            citation: format!("ISO 724:1993, {}", "basic dimensions, ".repeat(12)).into(),
            basis: Basis::Memory.into(),
            used_for: "thread".into(),
        }
    }

    #[test]
    fn it_is_written_and_read_as_the_contract_says() {
        let some = Source {
            citation: "ISO 724".into(),
            ..Source::default()
        };
        for source in [full(), some, Source::default()] {
            let bytes = source.encode_to_vec();
            assert_eq!(bytes.len(), source.encoded_len());
            let mut read = by_contract();
            read.merge(bytes.as_slice()).unwrap();
            assert_eq!(read.descriptor().fields().len(), 4);
            assert_eq!(read.unknown_fields().count(), 0);
            for (name, value) in [
                ("source", Value::String(source.source.to_string())),
                ("citation", Value::String(source.citation.to_string())),
                ("basis", Value::EnumNumber(source.basis)),
                ("used_for", Value::String(source.used_for.to_string())),
            ] {
                assert_eq!(read.get_field_by_name(name).unwrap().as_ref(), &value);
            }
            assert_eq!(read.encode_to_vec().len(), bytes.len());
            assert_eq!(
                Source::decode(read.encode_to_vec().as_slice()).unwrap(),
                source
            );
        }
    }

    #[test]
    fn what_a_later_contract_adds_is_passed_over() {
        let mut bytes = full().encode_to_vec();
        int32::encode(15, &7, &mut bytes);
        assert_eq!(Source::decode(bytes.as_slice()).unwrap(), full());
        let unheard_of = Source {
            basis: 999,
            ..full()
        };
        assert_eq!(unheard_of.basis(), Basis::Unspecified);
        assert_eq!(full().basis(), Basis::Memory);
    }

    #[test]
    fn damaged_bytes_are_refused() {
        let whole = full().encode_to_vec();
        assert!(Source::decode(&whole[..whole.len() - 3]).is_err());
        let mut not_text = Vec::new();
        encode_key(CITATION, WireType::LengthDelimited, &mut not_text);
        not_text.extend([2, 0xff, 0xfe]);
        assert!(Source::decode(not_text.as_slice()).is_err());
        let mut number_for_text = Vec::new();
        int32::encode(SOURCE, &5, &mut number_for_text);
        assert!(Source::decode(number_for_text.as_slice()).is_err());
    }

    #[test]
    fn cleared_it_is_as_new() {
        let mut source = full();
        source.clear();
        assert_eq!(source, Source::default());
    }
}
