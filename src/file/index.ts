export { type ReadCircuit, readCircuit } from "./circuitFiles";
export { default as FileSheet, FileFaults } from "./FileSheet";
