//! A photographer: one person who takes photos of a joint while others take it apart.

use crate::ask::Ask;
use crate::lane::{Lane, POSITIONS};
use crate::photo::{BreaksOff, Photo};
use tokio::sync::oneshot;

/// Photos that one person takes.
const PHOTOS: usize = 20;

impl Lane {
    /// Goes on until there are enough or a call is cut off.
    pub(crate) async fn photograph(mut self) {
        for _ in 0..PHOTOS {
            let photo = self.next_photo();
            if self.tell(Ask::Photo(photo)).await.is_err() {
                return;
            }
        }
    }

    /// Sends some of a photo, says so, and waits until cut off.
    pub(crate) async fn break_off(mut self, place: BreaksOff, sent: oneshot::Sender<()>) {
        let photo = self.next_photo();
        let ask = Ask::Photo(photo.clone());
        self.ledger.broken_off(self.number, ask.clone());
        let status = photo.break_off(&self.channel, place, sent).await;
        self.ledger.cut_off(&ask, &status);
    }

    fn next_photo(&mut self) -> Photo {
        Photo::of(self.joint_name(), POSITIONS, &mut self.dice)
    }
}
