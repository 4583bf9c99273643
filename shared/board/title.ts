import type * as Y from "yjs";
import { pageOf } from "./document";

/** The title of the board that a document holds, as `readBoard` gives it, without reading the rest. */
export function titleOf(doc: Y.Doc): string {
  const title = pageOf(doc).get("title");
  return typeof title === "string" ? title.slice(0, 2000) : "";
}
