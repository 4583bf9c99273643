export { Slip } from "./Slip";
export { slipPlace } from "./slipPlace";
