/** Something about the room itself that its people should know. */
export type Notice =
  /** Changes can't be stored: they are kept in the server's memory and not passed on until they are. */
  { readonly code: "notStoring"; readonly reason: string } | { readonly code: "storingAgain" };
