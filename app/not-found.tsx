import Link from "next/link";
import { ROOM_NAME_RULE } from "../src/room/roomName";

export default function NotFound() {
  return (
    <main style={{ padding: "56px 40px", maxWidth: 720 }}>
      <h1>There is no such page</h1>
      <p>{ROOM_NAME_RULE}</p>
      <p>
        <Link href="/">To the first page</Link>
      </p>
    </main>
  );
}
