import { EXAMPLES } from "../shared/examples";
import { ExampleDrawing, HomePage, homeStyles } from "../src/home";

export default function Home() {
  const examples = EXAMPLES.map(({ id, title, json }) => ({
    id,
    title,
    drawing: <ExampleDrawing json={json} className={homeStyles.drawing ?? ""} />,
  }));
  return <HomePage examples={examples} />;
}
