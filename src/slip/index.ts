export { Slip } from "./Slip";
export { slipPlace } from "./slipPlace";
export { turnedWanted, wantedOf } from "./wantedChoices";
