export { loadMathSetter, type MathSetter, mathSetterNow } from "./mathSetter";
export { useMathSetter } from "./useMathSetter";
