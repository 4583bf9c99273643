export { layOut, layOutFile } from "./layOut";
