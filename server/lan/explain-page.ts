// The page that explains: what plain http gives, what it lacks, and the numbered steps to the rest, by kind of device.
import { html, type Markup, page } from "./html.ts";
import { SEEN_PATH } from "./seen-page.ts";

export const AUTHORITY_PATH = "/shop-authority.crt";

export interface ExplainFacts {
  /** Fingerprint of the authority, to be compared by eye. */
  readonly fingerprint: string;
  readonly secureUrl: string;
  /** The same by address, for devices that cannot find the name. */
  readonly secureUrlByAddress: string | undefined;
  readonly canonical: string;
}

interface Steps {
  readonly id: string;
  readonly title: string;
  readonly steps: readonly string[];
}

const COMPARE =
  "Compare the fingerprint shown with the one on this page AND on the shop machine's own screen. If they differ, stop: do not install it.";

/** What an owner must do, by kind of device. Menu names differ a little between versions. */
export const DEVICE_STEPS: readonly Steps[] = [
  {
    id: "ios",
    title: "iPhone and iPad (Safari)",
    steps: [
      "Open this page in Safari and tap “Get the shop's certificate”. Tap Allow: a profile is downloaded.",
      "Open Settings. Tap “Profile Downloaded” near the top (or General, VPN & Device Management).",
      `Tap “More Details”, then the certificate. ${COMPARE}`,
      "Go back, tap Install, enter the phone's passcode, tap Install twice more, then Done.",
      "Now the step most people miss: Settings, General, About, Certificate Trust Settings (at the very bottom). Switch the shop's authority ON and tap Continue.",
      "Close all Safari tabs of this shop, then open the secure address below. No warning may appear.",
      "Pair the phone with the code from the shop machine. Then Share, Add to Home Screen.",
    ],
  },
  {
    id: "android",
    title: "Android (Chrome)",
    steps: [
      "Open this page in Chrome and tap “Get the shop's certificate”. The file shop-authority.crt is downloaded.",
      "Open Settings and search for “CA certificate” (Security, More security settings, Encryption & credentials, Install a certificate, CA certificate).",
      "Read the warning, tap “Install anyway”, unlock the phone, and choose shop-authority.crt from Downloads.",
      `Open Settings, Trusted credentials, User, and tap the shop's authority. ${COMPARE} To remove it, the same screen has Remove.`,
      "Close Chrome's tabs of this shop, then open the secure address below. No warning may appear. The phone may say from now on that the network may be monitored: that is about this certificate.",
      "In Firefox for Android: Settings, About Firefox, tap the logo five times; then Settings, Secret Settings, switch on “Use third party CA certificates”.",
      "Pair the phone with the code from the shop machine. Then the menu with three dots, Add to Home screen.",
    ],
  },
  {
    id: "desktop",
    title: "Desktop: Windows, macOS, Linux",
    steps: [
      "Get the shop's certificate with the button and keep the file.",
      `Look at its fingerprint (open the file, Details, Thumbprint or SHA-256; or openssl x509 -inform der -in shop-authority.crt -noout -fingerprint -sha256). ${COMPARE}`,
      "Windows (Chrome, Edge): open the file, Install Certificate, Current User, “Place all certificates in the following store”, Trusted Root Certification Authorities, Finish, Yes.",
      "macOS (Safari, Chrome): open the file so that Keychain Access has it in “login”, open it there, Trust, “When using this certificate: Always Trust”, close, enter the password.",
      "Linux (Chrome): Settings, Privacy and security, Security, Manage certificates, Authorities, Import, tick “Trust this certificate for identifying websites”.",
      "Firefox on any of them: Settings, Privacy & Security, View Certificates, Authorities, Import, tick “Trust this CA to identify websites”.",
      "Start the browser anew and open the secure address below. No warning may appear. Pair it with the code from the shop machine.",
    ],
  },
];

const stepList = ({ id, title, steps }: Steps): Markup => html`<h3 id="${id}">${title}</h3>
<ol>${steps.map((step) => html`<li>${step}</li>`)}</ol>`;

/** The plain listener's front page. */
export function explainPage(facts: ExplainFacts): string {
  return page(
    "The shop's bench book",
    html`<p>You are on the shop's own network, over plain http. Nothing here leaves the shop.</p>
<h2>What works here as it is</h2>
<ul>
<li>Type what you measured; it is read and checked like spoken words.</li>
<li>Send photos from this device's camera.</li>
<li>Look through a build's timeline with its verdicts.</li>
</ul>
<p><a class="button" href="/book">Open the book</a></p>
<p><a href="${SEEN_PATH}">What can be seen, and by whom</a></p>
<h2>What is missing here, and why</h2>
<ul>
<li>The microphone: browsers give it to a secure page only.</li>
<li>Working while the network is away, and keeping the screen awake: the same.</li>
<li>Privacy: anyone on this network can read what goes over plain http.</li>
</ul>
<h2>How to get the rest</h2>
<p>The shop made a certificate authority of its own. A device that trusts it gets a secure page from this machine without any outside service. The authority is limited by its own certificate to this machine's names and to addresses inside private networks, so it cannot vouch for a bank or any other site. Trust it only on devices that you look after.</p>
<p><a class="button" href="${AUTHORITY_PATH}">Get the shop's certificate</a></p>
<p>Its SHA-256 fingerprint:<br><span class="mono">${facts.fingerprint}</span></p>
${DEVICE_STEPS.map(stepList)}
<h2>The secure address</h2>
<p class="big"><a href="${facts.secureUrl}">${facts.secureUrl}</a></p>
${facts.secureUrlByAddress !== undefined && html`<p>If this device cannot find ${facts.canonical}: <a href="${facts.secureUrlByAddress}">${facts.secureUrlByAddress}</a>. Then keep to that address: what a device has not yet sent is kept for each address apart.</p>`}`,
  );
}
