import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { TryPage } from "../../../../../src/page/TryPage";
import { isRoomName } from "../../../../../src/room/roomName";

type Props = { readonly params: Promise<{ readonly code: string; readonly name: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `a learner’s try · ${(await params).code} · addend` };
}

export default async function LearnersTry({ params }: Props) {
  const { code, name } = await params;
  if (!isRoomName(code) || !isRoomName(name)) notFound();
  return <TryPage key={name} tried={code} room={name} />;
}
