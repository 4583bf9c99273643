import type { Metadata } from "next";
import { notFound } from "next/navigation";
import type { Board } from "../../../shared/board";
import { boardFromFile } from "../../../shared/board/boardFile";
import { readCircuitFile } from "../../../shared/circuit";
import { EXAMPLES } from "../../../shared/examples";
import { RoomPage } from "../../../src/page/RoomPage";
import { isRoomName } from "../../../src/room/roomName";

type Props = {
  readonly params: Promise<{ readonly code: string }>;
  readonly searchParams: Promise<{ readonly example?: string | readonly string[] }>;
};

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `${(await params).code} · addend` };
}

export default async function Room({ params, searchParams }: Props) {
  const { code } = await params;
  if (!isRoomName(code)) notFound();
  const { example } = await searchParams;
  return <RoomPage room={code} beginWith={typeof example === "string" ? exampleBoard(example) : null} />;
}

/** The board of an example of ours, null for an id that none has. */
function exampleBoard(id: string): Board | null {
  const example = EXAMPLES.find((candidate) => candidate.id === id);
  const file = example ? readCircuitFile(example.json) : null;
  return file?.ok ? boardFromFile(file.value) : null;
}
