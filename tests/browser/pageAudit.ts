import type { Page } from "@playwright/test";

/**
 * Checks of a page that hold for every page, after WCAG 2.2 (levels A and AA). Each gives the faults that it finds as
 * sentences; a page without faults gives none.
 */
export async function auditPage(page: Page): Promise<readonly string[]> {
  const faults = await page.evaluate(() => {
    const isSeen = (element: Element) => {
      const box = element.getBoundingClientRect();
      return (
        box.width > 1 && box.height > 1 && element.checkVisibility({ opacityProperty: true, visibilityProperty: true })
      );
    };
    // While a dialog is open, all else is out of reach.
    const root: ParentNode = document.querySelector("dialog[open]") ?? document;
    const seen = (selector: string) => [...root.querySelectorAll(selector)].filter(isSeen);
    const tell = (element: Element) =>
      `<${element.tagName.toLowerCase()}> “${(element.textContent ?? "").trim().slice(0, 40)}”`;
    return [...structure(), ...landmarks(), ...names(), ...labels(), ...targets(), ...contrast()];

    /** 1.3.1, 2.4.1, 2.4.2, 2.4.6, 3.1.1: language, title, landmarks, headings in order, ids once. */
    function structure(): string[] {
      const found: string[] = [];
      if (!document.documentElement.lang) found.push("the page does not say its language");
      if (document.title.trim() === "") found.push("the page has no title");
      if (document.querySelectorAll("main").length !== 1) found.push("the page does not have one main landmark");
      if (document.querySelectorAll("h1").length !== 1) found.push("the page does not have one first heading");
      let level = 0;
      for (const heading of document.querySelectorAll("h1,h2,h3,h4,h5,h6")) {
        if (!isSeen(heading) || heading.closest("dialog")) continue;
        const next = Number(heading.tagName[1]);
        if (level > 0 && next > level + 1) found.push(`${tell(heading)} leaves out a level of headings`);
        level = next;
      }
      const ids = [...document.querySelectorAll("[id]")].map((element) => element.id);
      for (const id of new Set(ids))
        if (ids.filter((each) => each === id).length > 1) found.push(`the id ${id} is there twice`);
      for (const element of document.querySelectorAll("[aria-labelledby],[aria-describedby],[aria-controls]")) {
        for (const attribute of ["aria-labelledby", "aria-describedby", "aria-controls"]) {
          for (const id of (element.getAttribute(attribute) ?? "").split(/\s+/).filter(Boolean)) {
            if (!document.getElementById(id)) found.push(`${tell(element)} points at #${id}, which is not there`);
          }
        }
      }
      return found;
    }

    /** 1.3.1: a head or a foot of the page lies in no other landmark, and neither does the main part. */
    function landmarks(): string[] {
      const around = "main, nav, aside, header, footer, [role=banner], [role=navigation], [role=complementary]";
      // Within a part of its own a head is that part's, and no landmark.
      const parts = "article, section, [role=region]";
      return [...document.querySelectorAll("header, footer, main, [role=banner], [role=contentinfo]")]
        .filter((element) => isSeen(element) && !element.closest(parts))
        .filter((element) => element.parentElement?.closest(around))
        .map((element) => `${tell(element)} is a landmark inside of another`);
    }

    /** 2.5.3: the name of a control has the words in it that are seen on it, so that they can be said to it. */
    function labels(): string[] {
      const plain = (text: string | null) =>
        (text ?? "")
          .toLowerCase()
          .replace(/[^\p{L}\p{N}]+/gu, " ")
          .trim();
      return seen("button[aria-label], a[aria-label], [role=button][aria-label]")
        .filter((control) => !control.querySelector("svg, [aria-hidden=true]"))
        .filter((control) => !plain(control.getAttribute("aria-label")).includes(plain(control.textContent)))
        .map((control) => `${tell(control)} is called “${control.getAttribute("aria-label")}”, without its words`);
    }

    /** 1.1.1, 4.1.2: a picture has a name or says that it is decoration. Names of controls are read off the tree. */
    function names(): string[] {
      return seen("svg, img, canvas")
        .filter((picture) => !picture.closest("[aria-hidden=true],[role=application],[role=img],[aria-label]"))
        .filter((picture) => !picture.getAttribute("alt"))
        .map((picture) => `${tell(picture)} has neither a name nor a mark that it is decoration`);
    }

    /** 2.5.8: at least 24 × 24 CSS pixels, but for links inside of sentences and what has the room around it. */
    function targets(): string[] {
      const controls = seen("a[href], button, input, select, textarea, summary, [role=button], [role=slider]");
      const reach = (control: Element) => {
        const label = control.closest("label");
        return (label ?? control).getBoundingClientRect();
      };
      return (
        controls
          .filter((control) => !(control.tagName === "A" && control.closest("p")))
          // What is cut away is for the keyboard, and shown once it has the focus.
          .filter((control) => getComputedStyle(control).clipPath === "none")
          .filter((control) => reach(control).width < 24 || reach(control).height < 24)
          .map((control) => {
            const { width, height } = reach(control);
            return `${tell(control)} is ${Math.round(width)} × ${Math.round(height)} px to the finger`;
          })
      );
    }

    /** 1.4.3: 4.5:1 for text, 3:1 for large text. What is disabled is let off, as the criterion does. */
    function contrast(): string[] {
      const found = new Set<string>();
      const walker = document.createTreeWalker(root as Node, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const element = node.parentElement;
        if (!element || (node.textContent ?? "").trim() === "" || !isSeen(element)) continue;
        if (element.closest(":disabled, [aria-disabled=true], option, script, style, noscript")) continue;
        const style = getComputedStyle(element);
        if (style.clipPath !== "none") continue;
        const ratio = ratioOf(element instanceof SVGElement ? style.fill : style.color, paperBehind(element));
        const size = Number.parseFloat(style.fontSize);
        const isLarge = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
        if (ratio < (isLarge ? 3 : 4.5)) found.add(`${tell(element)} has a contrast of ${ratio.toFixed(2)}:1`);
      }
      return [...found];
    }

    function paperBehind(element: Element): string {
      for (let at: Element | null = element; at; at = at.parentElement) {
        const colour = getComputedStyle(at).backgroundColor;
        if (alpha(colour) === 1) return colour;
      }
      return "rgb(255, 255, 255)";
    }

    function channels(colour: string): number[] {
      return (colour.match(/[\d.]+/g) ?? []).map(Number);
    }
    function alpha(colour: string): number {
      return channels(colour)[3] ?? 1;
    }
    /** Relative luminance and contrast as WCAG 2.2 defines them. */
    function luminance(colour: string): number {
      const [r = 0, g = 0, b = 0] = channels(colour).map((value) => {
        const part = value / 255;
        return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    }
    function ratioOf(a: string, b: string): number {
      const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
      return (light + 0.05) / (dark + 0.05);
    }
  });
  return [...faults, ...(await namelessControls(page))];
}

const CONTROLS = ["button", "link", "textbox", "checkbox", "radio", "combobox", "slider", "application", "dialog"];

/** 4.1.2, 2.4.4, 3.3.2: every control has a name. As browsers tell it to screen readers. */
async function namelessControls(page: Page): Promise<readonly string[]> {
  const tree = await page.locator("body").ariaSnapshot();
  return tree
    .split("\n")
    .filter((line) => CONTROLS.some((role) => new RegExp(`^\\s*- ${role}(?: \\[[^\\]]*\\])*:?\\s*$`).test(line)))
    .map((line) => `a control has no name: ${line.trim()}`);
}

/** 2.4.7: goes through the page by the Tab key and tells what has the focus without showing it. Also 2.1.2: no trap. */
export async function auditFocus(page: Page, steps: number): Promise<readonly string[]> {
  const faults = new Set<string>();
  const visited: string[] = [];
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  for (let i = 0; i < steps; i += 1) {
    await page.keyboard.press("Tab");
    const at = await page.evaluate(() => {
      const element = document.activeElement;
      if (!element || element === document.body) return null;
      // A field that covers its label shows its focus on the label.
      const shown = element.matches("input[type=file]") ? (element.closest("label") ?? element) : element;
      const style = getComputedStyle(shown);
      const isShown = style.outlineStyle !== "none" && Number.parseFloat(style.outlineWidth) >= 2;
      const label = (element as Partial<HTMLInputElement>).labels?.[0] ?? element;
      const words = element.getAttribute("aria-label") ?? label.textContent?.slice(0, 40);
      const name = `<${element.tagName.toLowerCase()}> “${words}”`;
      return { name, isShown };
    });
    // From the last control the key leads out of the page, and then in again.
    if (!at) continue;
    visited.push(at.name);
    if (!at.isShown) faults.add(`${at.name} does not show that it has the focus`);
  }
  if (new Set(visited).size < 3) faults.add(`the Tab key reaches only ${visited.join(", ")}`);
  return [...faults];
}
