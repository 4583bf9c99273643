export { type DataFolder, takeDataFolder } from "./dataFolder";
export { migrate } from "./migrate";
export { type Migration, readMigrations } from "./migrationFolder";
export { openDatabase } from "./openDatabase";
export { OperatorError } from "./operatorError";
