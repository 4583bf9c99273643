import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ReplayPage } from "../../../../src/replay/ReplayPage";
import { isRoomName } from "../../../../src/room/roomName";

type Props = { readonly params: Promise<{ readonly code: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Replay of ${(await params).code} · addend` };
}

export default async function Replay({ params }: Props) {
  const { code } = await params;
  if (!isRoomName(code)) notFound();
  return <ReplayPage key={code} room={code} />;
}
