//! pieces
/// x
pub struct Piece;
/// x
pub struct PieceKind;
/// x
pub fn pieces() {}
