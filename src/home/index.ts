export { ExampleDrawing } from "./ExampleDrawing";
export { HomePage } from "./HomePage";
export { default as homeStyles } from "./home.module.css";
