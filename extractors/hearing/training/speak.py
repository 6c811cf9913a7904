"""Speaks the sentences with every synthetic voice that training may use.

speak.py SENTENCES.jsonl COUNT SECONDS OUT.npz: 16 kHz mono int16 samples of at most COUNT sentences, one after the other, with offsets,
phones and voice of each. Stops after SECONDS. Needs espeak-ng, flite and node with @echogarden/gnuspeech-wasm on the paths below.
Voices in KEPT_APART are spoken too, but marked: they fit the doubt and are never trained on.
"""
import json, os, random, re, subprocess, sys, tempfile, time, wave
from multiprocessing import Pool, cpu_count
import numpy as np

RATE = 16000
ESPEAK = os.environ.get("ESPEAK", "espeak-ng")
FLITE = os.environ.get("FLITE", "flite")
NODE = os.environ.get("NODE", "node")
GNUSPEECH = os.environ.get("GNUSPEECH", "")
ACCENTS = "en-us en-us en-us en-gb en-gb en-gb-scotland en-gb-x-rp en-gb-x-gbclan en-gb-x-gbcwmd en-us-nyc en-029".split()
VARIANTS = (
    "m1 m2 m3 m4 m5 m6 m7 m8 f1 f2 f3 f4 f5 klatt klatt2 klatt3 klatt4 klatt5 klatt6 croak Alicia Andrea Andy Annie anika announcer aunty "
    "belinda benjamin boris caleb Denis Diogo ed edward Gene grandma grandpa gustave Henrique Hugo iven iven2 iven3 iven4 john kaukovalta "
    "linda Lee Marco Mario marcelo max Michael michel miguel Mr Nguyen norbert pablo paul pedro quincy rob robert Sandro sandro shelby steph "
    "steph2 steph3 travis Tweaky victor zac"
).split()
FLITE_VOICES = ("rms", "rms", "awb")  # never kal, kal16 or slt: those report
GNU_VOICES = ("male", "female", "large_child", "male", "female")
KEPT_APART = {"m1", "f3", "klatt2", "steph2", "max", "grandpa", "linda"}
# Words that a synthesiser reads otherwise than they are said at a bench.
SPELLED = {"psi": "p s i", "cc": "c c", "microinches": "micro inches", "microinch": "micro inch"}


def respell(text, own):
    return " ".join(own.get(word) or SPELLED.get(word, word) for word in text.split())


def read_wav(path):
    with wave.open(path) as f:
        return np.frombuffer(f.readframes(f.getnframes()), dtype=np.int16), f.getframerate()


def espeak(text, rnd):
    variant = rnd.choice(VARIANTS)
    voice = f"{rnd.choice(ACCENTS)}+{variant}"
    said = respell(text, {"thou": "[[TaU]]", "b": "[[bi:]]"})
    speed, pitch = str(rnd.randint(115, 225)), str(rnd.randint(10, 90))
    command = [ESPEAK, "-v", voice, "-s", speed, "-p", pitch, "--stdout", said]
    out = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, timeout=20).stdout
    return np.frombuffer(out[44:], dtype=np.int16), 22050, voice, variant in KEPT_APART


def flite(text, rnd):
    voice = rnd.choice(FLITE_VOICES)
    thou = rnd.choice(("thow", "thou"))  # the second is said with the first sound of "that"
    with tempfile.NamedTemporaryFile(suffix=".wav", dir="/dev/shm") as f:
        stretch = f"duration_stretch={rnd.uniform(0.75, 1.3):.2f}"
        command = [FLITE, "-voice", voice, "--setf", stretch, "-t", respell(text, {"thou": thou}), "-o", f.name]
        subprocess.run(command, timeout=40, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        pcm, rate = read_wav(f.name)
    return pcm, rate, f"flite {voice}{' dh' if thou == 'thou' else ''}", False


_gnu = None


def gnuspeech(text, rnd):
    """One node process a worker: the synthesiser's tables take a second to load."""
    global _gnu
    if _gnu is None or _gnu.poll() is not None:
        script = os.path.join(os.path.dirname(os.path.abspath(__file__)), "gnuspeech.mjs")
        _gnu = subprocess.Popen([NODE, script, GNUSPEECH], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    voice = rnd.choice(GNU_VOICES)
    with tempfile.NamedTemporaryFile(suffix=".wav", dir="/dev/shm") as f:
        request = {"text": respell(text, {}), "voice": voice, "tempo": round(rnd.uniform(0.85, 1.3), 2), "pitch": rnd.uniform(-9, 2), "out": f.name}
        _gnu.stdin.write((json.dumps(request) + "\n").encode())
        _gnu.stdin.flush()
        if _gnu.stdout.readline().strip() != b"ok":
            raise RuntimeError("gnuspeech did not speak")
        pcm, rate = read_wav(f.name)
    return pcm, rate, f"gnuspeech {voice}", False


def one(job):
    number, sentence, seed = job
    rnd = random.Random(seed * 1_000_003 + number)
    text = sentence["text"]
    dice = rnd.random()
    try:
        if GNUSPEECH and dice < 0.08 and "thou" not in text.split():
            pcm, rate, voice, apart = gnuspeech(text, rnd)
        elif dice < 0.55:
            pcm, rate, voice, apart = espeak(text, rnd)
        else:
            pcm, rate, voice, apart = flite(text, rnd)
        if len(pcm) < 2000:
            return None
        count = int(len(pcm) * RATE / rate)
        if rate > RATE:  # a plain low-pass before every other sample goes
            spectrum = np.fft.rfft(pcm.astype(np.float32))
            spectrum[int(len(spectrum) * RATE / rate):] = 0
            pcm = np.fft.irfft(spectrum, n=len(pcm))
        pcm = np.interp(np.linspace(0, len(pcm) - 1, count), np.arange(len(pcm)), pcm).astype(np.float32)
        top = np.abs(pcm).max()
        if top == 0 or count > RATE * 9:
            return None
        phones = re.sub(r"\bTH AW(?! Z)", "DH AW", sentence["phones"]) if voice.endswith(" dh") else sentence["phones"]
        return (pcm / top * 12000).astype(np.int16), phones, text, voice, apart
    except Exception:
        return None


def main():
    path, most, seconds, out = sys.argv[1], int(sys.argv[2]), float(sys.argv[3]), sys.argv[4]
    seed = int(os.environ.get("SEED", "1"))
    began = time.time()
    sentences = [json.loads(line) for line in open(path)]
    random.Random(seed).shuffle(sentences)
    jobs = ((n, sentences[n % len(sentences)], seed) for n in range(most))
    spoken = []
    with Pool(cpu_count()) as pool:
        for result in pool.imap_unordered(one, jobs, chunksize=16):
            if result is not None:
                spoken.append(result)
            if time.time() - began > seconds:
                pool.terminate()
                break
    offsets = np.cumsum([0] + [len(s[0]) for s in spoken])
    np.save(out + ".npy", np.concatenate([s[0] for s in spoken]))
    labels = {"offsets": offsets.tolist(), "phones": [s[1] for s in spoken], "texts": [s[2] for s in spoken], "voices": [s[3] for s in spoken], "apart": [s[4] for s in spoken]}
    json.dump(labels, open(out + ".json", "w"))
    engines = {}
    for s in spoken:
        engines[s[3].split(" ")[0].split("-")[0]] = engines.get(s[3].split(" ")[0].split("-")[0], 0) + 1
    print(len(spoken), "clips,", round(offsets[-1] / RATE / 3600, 1), "hours,", len({s[3] for s in spoken}), "voices,", engines, round(time.time() - began), "s", flush=True)


if __name__ == "__main__":
    main()
