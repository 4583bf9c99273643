import { PlainPage } from "../src/paper";
import { ROOM_NAME_RULE } from "../src/room/roomName";

export default function NotFound() {
  return (
    <PlainPage title="There is no such page">
      <p>{ROOM_NAME_RULE}</p>
    </PlainPage>
  );
}
