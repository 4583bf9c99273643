export * from "./rational";
export * from "./unit";
