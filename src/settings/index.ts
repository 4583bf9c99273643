export { DEFAULT_SETTINGS, type EquationOrder, type PaperSettings, readSettings, storeSettings } from "./paperSettings";
export { usePaperSettings } from "./usePaperSettings";
