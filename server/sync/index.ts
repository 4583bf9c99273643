export { SyncEndpoint } from "./syncEndpoint";
