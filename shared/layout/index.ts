export { type LayoutOptions, layOut, layOutFile } from "./layOut";
