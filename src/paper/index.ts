export { copyText } from "./copyText";
export { moveAlong } from "./moveAlong";
export { PlainPage } from "./PlainPage";
export { default as pageStyles } from "./page.module.css";
export { Sheet } from "./Sheet";
export { SheetButton } from "./SheetButton";
export { default as sheetStyles } from "./sheet.module.css";
export { Wordmark } from "./Wordmark";
