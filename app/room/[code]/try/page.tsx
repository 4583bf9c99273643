import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { TryPage } from "../../../../src/page/TryPage";
import { isRoomName } from "../../../../src/room/roomName";

type Props = { readonly params: Promise<{ readonly code: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `own try · ${(await params).code} · addend` };
}

export default async function OwnTry({ params }: Props) {
  const { code } = await params;
  if (!isRoomName(code)) notFound();
  return <TryPage key={code} tried={code} room={null} />;
}
