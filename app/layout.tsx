import "@fontsource/atkinson-hyperlegible/400.css";
import "@fontsource/atkinson-hyperlegible/700.css";
import "katex/dist/katex.min.css";
import "../src/page/tokens.css";
import type { Metadata, Viewport } from "next";
import type { ReactNode } from "react";
import { PAPER_SCRIPT } from "../src/settings/paperScript";

export const metadata: Metadata = {
  title: "addend",
  description: "A shared board for linear circuits, solved one source at a time.",
};

export const viewport: Viewport = { width: "device-width", initialScale: 1 };

export default function Layout({ children }: { readonly children: ReactNode }) {
  return (
    // The script sets an attribute of this element before React sees it.
    <html lang="en" suppressHydrationWarning>
      <head>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: a constant of our own, without anybody's text in it */}
        <script dangerouslySetInnerHTML={{ __html: PAPER_SCRIPT }} />
      </head>
      <body>{children}</body>
    </html>
  );
}
