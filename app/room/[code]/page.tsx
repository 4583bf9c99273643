import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { RoomPage } from "../../../src/page/RoomPage";
import { isRoomName } from "../../../src/room/roomName";

type Props = { readonly params: Promise<{ readonly code: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `${(await params).code} · addend` };
}

export default async function Room({ params }: Props) {
  const { code } = await params;
  if (!isRoomName(code)) notFound();
  return <RoomPage key={code} room={code} />;
}
