import { EXAMPLES } from "../shared/examples";
import { HomePage } from "../src/page/HomePage";

export default function Home() {
  return <HomePage examples={EXAMPLES.map(({ id, title }) => ({ id, title }))} />;
}
