export { DEFAULT_SETTINGS, type PaperSettings, readSettings, storeSettings } from "./paperSettings";
export { usePaperSettings } from "./usePaperSettings";
