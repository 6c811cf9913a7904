"""Trains the acoustic network on spoken sentences.

train.py SPOKEN MODELS OUT --seconds S [--hidden H --layers L --seed N --device cuda:0]: SPOKEN.npy and SPOKEN.json are speak.py's, MODELS
holds the two published files, OUT.onnx and OUT.json (the figures) are written. Clips marked as kept apart are only measured on.
"""
import argparse, copy, json, math, random, time
import numpy as np, torch, torch.nn as nn, torch.nn.functional as F
from network import LABEL_OF, PHONES, Network
from roughen import mask, roughen
from pack import pack

parser = argparse.ArgumentParser()
parser.add_argument("spoken"), parser.add_argument("models"), parser.add_argument("out")
parser.add_argument("--seconds", type=float, default=300)
parser.add_argument("--hidden", type=int, default=320), parser.add_argument("--layers", type=int, default=2)
parser.add_argument("--seed", type=int, default=1), parser.add_argument("--device", default="cuda"), parser.add_argument("--batch", type=int, default=160)
parser.add_argument("--start", nargs="*", default=[], help="weights of earlier runs to go on from: the mean of them")
parser.add_argument("--rate", type=float, default=1.2e-3)
args = parser.parse_args()
torch.manual_seed(args.seed), random.seed(args.seed)
device = args.device
labels = json.load(open(args.spoken + ".json"))
samples = torch.from_numpy(np.load(args.spoken + ".npy")).to(device)
offsets, phones = labels["offsets"], [[LABEL_OF[p] for p in text.split()] for text in labels["phones"]]
long_enough = [i for i in range(len(phones)) if offsets[i + 1] - offsets[i] > 640 * 1.1 * len(phones[i])]
apart = [i for i in long_enough if labels["apart"][i]][:400]
train = [i for i in long_enough if not labels["apart"][i]]


def batch(ids, pad):
    clips = [samples[offsets[i] : offsets[i + 1]].float() for i in ids]
    out = torch.zeros(len(ids), max(map(len, clips)) + 12000, device=device)
    for row, clip in enumerate(clips):
        at = random.randint(1600, 8000) if pad is None else pad
        out[row, at : at + len(clip)] = clip
    return out


def distance(one, other):
    row = list(range(len(other) + 1))
    for i, a in enumerate(one, 1):
        before, row[0] = row[0], i
        for j, b in enumerate(other, 1):
            before, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, before + (a != b))
    return row[-1]


def phone_error(network):
    """Share of phones wrong without any grammar, of voices kept apart: clean, and roughened."""
    rates = []
    network.eval()
    for rough in (False, True):
        wrong = total = 0
        random.seed(7), torch.manual_seed(7)
        for at in range(0, len(apart), 50):
            ids = apart[at : at + 50]
            x = batch(ids, 4800)
            x = roughen(x) if rough else x + torch.randn_like(x) * 4
            with torch.no_grad():
                best = network(x).argmax(-1).tolist()
            for i, path in zip(ids, best):
                heard = [p for p, q in zip(path, [0] + path[:-1]) if p != q and p != 0]
                wrong += distance(phones[i], heard)
                total += len(phones[i])
        rates.append(round(wrong / total, 4))
    network.train()
    return rates


network = Network(args.models, args.hidden, args.layers).to(device)
if args.start:
    earlier = [torch.load(path, map_location=device) for path in args.start]
    network.load_state_dict({k: sum(e[k].float() for e in earlier) / len(earlier) for k in earlier[0]}, strict=False)
average = copy.deepcopy(network)
head = [p for name, p in network.named_parameters() if not name.startswith("embedding.")]
optimizer = torch.optim.AdamW([{"params": head, "lr": args.rate}, {"params": list(network.embedding.parameters()), "lr": args.rate / 4}], weight_decay=1e-2)
base = [group["lr"] for group in optimizer.param_groups]
print(len(train), "clips to train on,", len(apart), "kept apart,", round(sum(p.numel() for p in network.parameters()) / 1e6, 2), "M weights", flush=True)
began, step, mean, order, epochs = time.time(), 0, 0.0, [], 0
while (spent := time.time() - began) < args.seconds:
    share = spent / args.seconds
    for group, rate in zip(optimizer.param_groups, base):
        group["lr"] = rate * min(1, (step + 1) / 400) * (0.5 * (1 + math.cos(math.pi * share)) + 0.005)
    if not order:
        epochs += 1
        order = sorted(train, key=lambda i: offsets[i + 1] - offsets[i] + random.randint(0, 8000))
        order = [order[k : k + args.batch] for k in range(0, len(order), args.batch)]
        random.shuffle(order)
    ids = order.pop()
    with torch.autocast("cuda", dtype=torch.bfloat16, enabled=device.startswith("cuda")):
        posteriors = network(roughen(batch(ids, None)), mask)
    lengths = torch.full((len(ids),), posteriors.shape[1])
    targets = torch.tensor([a for i in ids for a in phones[i]])
    loss = F.ctc_loss(posteriors.float().transpose(0, 1), targets, lengths, torch.tensor([len(phones[i]) for i in ids]), zero_infinity=True)
    optimizer.zero_grad()
    loss.backward()
    nn.utils.clip_grad_norm_(network.parameters(), 5)
    optimizer.step()
    step += 1
    mean = 0.98 * mean + 0.02 * loss.item()
    keep = min(0.9995, step / (step + 50))
    with torch.no_grad():
        for a, b in zip(average.parameters(), network.parameters()):
            a.lerp_(b, 1 - keep)
    if step % 1000 == 0:
        print(f"step {step} epoch {epochs} loss {mean:.3f} {spent:.0f} s", flush=True)
figures = {"steps": step, "epochs": epochs, "loss": round(mean, 4), "hidden": args.hidden, "layers": args.layers, "seed": args.seed}
figures["phone_error"] = {"last": phone_error(network), "average": phone_error(average)}
print(figures, flush=True)
best = average if sum(figures["phone_error"]["average"]) <= sum(figures["phone_error"]["last"]) else network
torch.save({k: v.half() for k, v in best.state_dict().items() if not k.startswith("mel.")}, args.out + ".pt")
json.dump({**figures, "phones": PHONES}, open(args.out + ".json", "w"))
best = best.float().eval().cpu()
kwargs = {"dynamo": False} if tuple(map(int, torch.__version__.split(".")[:2])) >= (2, 5) else {}
torch.onnx.export(best, torch.randn(1, 48000) * 100, args.out + ".full.onnx", input_names=["samples"], output_names=["posteriors"], dynamic_axes={"samples": {1: "n"}, "posteriors": {1: "t"}}, opset_version=17, **kwargs)
pack(args.out + ".full.onnx", args.out + ".onnx")
