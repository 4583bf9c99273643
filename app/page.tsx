import { EXAMPLES } from "../shared/examples";
import { HomePage } from "../src/page";

export default function Home() {
  return <HomePage examples={EXAMPLES.map(({ id, title }) => ({ id, title }))} />;
}
