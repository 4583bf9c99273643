export { type ReadCircuit, readCircuit } from "./circuitFiles";
export { default as FileSheet, FileFaults, SaveCircuit, SaveDrawing } from "./FileSheet";
