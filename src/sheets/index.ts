export { AskSheet } from "./AskSheet";
export { KeysSheet } from "./KeysSheet";
export { PaperSheet } from "./PaperSheet";
export { PartsSheet } from "./PartsSheet";
