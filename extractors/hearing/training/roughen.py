"""Roughens a batch of clean synthetic speech so that it is as hard to hear as a voice in a shop, on the GPU.

Samples [batch, time], float, any scale, in and out. Each call draws anew: frequency scale, tempo, formants, equaliser, telephone band, room,
and noise from -3 to 33 dB: coloured noise, hum, babble, blows, a grinder, a compressor.
"""
import math, random
import torch, torch.nn.functional as F

RATE = 16000


def uniform(low, high, count, device):
    return torch.rand(count, 1, device=device) * (high - low) + low


def formants(x):
    """Moves the spectral envelope along the frequency axis and leaves the pitch where it is: another throat for the same voice."""
    size, hop = 512, 128
    window = torch.hann_window(size, device=x.device)
    spectrum = torch.stft(x, size, hop, window=window, return_complex=True)
    log = torch.log(spectrum.abs() + 1e-3)
    cepstrum = torch.fft.irfft(log, n=size, dim=1)
    cepstrum[:, 36:-35] = 0  # what is left is smooth: the envelope without the harmonics
    envelope = torch.fft.rfft(cepstrum, dim=1).real
    bins = envelope.shape[1]
    factor = uniform(0.84, 1.2, x.shape[0], x.device)
    place = (torch.arange(bins, device=x.device)[None] / factor).clamp(max=bins - 1)
    low = place.floor().long()
    part = (place - low)[..., None]
    low, high = low[..., None].expand(-1, -1, log.shape[2]), (low + 1).clamp(max=bins - 1)[..., None].expand(-1, -1, log.shape[2])
    moved = envelope.gather(1, low) * (1 - part) + envelope.gather(1, high) * part
    gain = torch.exp((moved - envelope).clamp(-4, 4))
    return torch.istft(spectrum * gain, size, hop, window=window, length=x.shape[1])


def coloured(count, time, exponent, device):
    noise = torch.fft.rfft(torch.randn(count, time, device=device))
    frequency = torch.arange(noise.shape[1], device=device).clamp(min=1).float()
    x = torch.fft.irfft(noise / frequency[None] ** exponent, n=time)
    return x / (x.std(1, keepdim=True) + 1e-9)


def unit(x):
    return x / (x.std(1, keepdim=True) + 1e-6)


def blows(count, time, device):
    """Hammer blows: bursts that ring and die away."""
    at = (torch.rand(count, time, device=device) < 1 / 9000).float() * torch.rand(count, time, device=device)
    length = 4000
    t = torch.arange(length, device=device)[None] / RATE
    decay = torch.exp(-t / uniform(0.004, 0.08, count, device))
    ring = sum(torch.sin(2 * math.pi * uniform(300, 5000, count, device) * t) for _ in range(4)) + 2 * torch.randn(count, length, device=device)
    n = time + length
    return torch.fft.irfft(torch.fft.rfft(at, n=n) * torch.fft.rfft(ring * decay, n=n), n=n)[:, :time]


def hum(count, time, device):
    t = torch.arange(time, device=device)[None] / RATE
    base = uniform(45, 190, count, device)
    return sum(uniform(0, 1, count, device) * torch.sin(2 * math.pi * base * k * t + k) for k in (1, 2, 3, 4, 5, 8, 13))


def machine(count, time, device):
    """A compressor or a grinder: a band of noise, beating, with a whine."""
    t = torch.arange(time, device=device)[None] / RATE
    band = torch.fft.rfft(torch.randn(count, time, device=device))
    k = torch.arange(band.shape[1], device=device)[None] / band.shape[1] * 8000
    centre, width = uniform(150, 5000, count, device), uniform(200, 2500, count, device)
    x = unit(torch.fft.irfft(band * torch.exp(-(((k - centre) / width) ** 2)), n=time))
    beat = 1 + uniform(0, 1, count, device) * torch.sin(2 * math.pi * uniform(1, 40, count, device) * t)
    pitch = uniform(80, 3500, count, device)
    return x * beat + uniform(0, 0.7, count, device) * torch.sin(2 * math.pi * pitch * t + 3 * torch.sin(2 * math.pi * uniform(0.2, 6, count, device) * t))


def noise(x):
    count, time = x.shape
    device = x.device
    babble = sum(x.roll(k, 0).roll(random.randrange(time), 1) * uniform(0.2, 1, count, device) for k in range(1, random.randint(2, 6)))
    kinds = [
        coloured(count, time, torch.rand(count, 1, device=device) * 1.1, device),
        unit(hum(count, time, device)),
        unit(babble) * (torch.rand(count, 1, device=device) < 0.3),
        unit(blows(count, time, device)) * (torch.rand(count, 1, device=device) < 0.4),
        unit(machine(count, time, device)) * (torch.rand(count, 1, device=device) < 0.5),
    ]
    return unit(sum(uniform(0, 1, count, device) ** 3 * kind for kind in kinds))


def roughen(x):
    count = x.shape[0]
    device = x.device
    if random.random() < 0.6:
        x = formants(x)
    scale = random.uniform(0.8, 1.25)
    x = F.interpolate(x[:, None], scale_factor=scale, mode="linear", align_corners=False)[:, 0]
    time = x.shape[1]
    spectrum = torch.fft.rfft(x)
    bins = spectrum.shape[1]
    gain = F.interpolate(torch.randn(count, 1, random.randint(4, 14), device=device) * 5, size=bins, mode="linear")[:, 0]
    spectrum = spectrum * 10 ** (gain / 20)
    k = torch.arange(bins, device=device)[None]
    telephone = torch.rand(count, 1, device=device) < 0.3
    top = uniform(3000, 8000, count, device) / 8000 * bins
    spectrum = torch.where(telephone & (k > top), spectrum * 0.003, spectrum)
    spectrum = torch.where(telephone & (k < bins * uniform(0.005, 0.04, count, device)), spectrum * 0.05, spectrum)
    if random.random() < 0.5:
        length = 8000
        fade = torch.exp(-6.9 * torch.arange(length, device=device)[None] / RATE / uniform(0.08, 0.7, count, device))
        room = torch.randn(count, length, device=device) * fade
        room = room / room.norm(dim=1, keepdim=True) * uniform(0, 1, count, device)
        room[:, 0] = 1
        spectrum = spectrum * torch.fft.rfft(room, n=time)
    x = torch.fft.irfft(spectrum, n=time)
    x = x / (x.abs().amax(1, keepdim=True) + 1e-6) * 10000
    if random.random() < 0.3:  # speech is louder here and softer there
        swing = F.interpolate(torch.rand(count, 1, max(2, time // 8000), device=device), size=time, mode="linear")[:, 0]
        x = x * (0.35 + swing)
    power = (x**2).mean(1, keepdim=True).sqrt() + 1e-6
    noisy = (torch.rand(count, 1, device=device) < 0.8).float()
    x = x + noisy * noise(x) * power * 10 ** (-uniform(-3, 33, count, device) / 20) + torch.randn_like(x) * uniform(0, 8, count, device)
    if random.random() < 0.15:  # telephone companding
        y = x / (x.abs().amax(1, keepdim=True) + 1e-6)
        y = torch.sign(y) * torch.log1p(255 * y.abs()) / math.log(256)
        y = torch.round(y * 127) / 127
        x = torch.sign(y) * (torch.pow(256.0, y.abs()) - 1) / 255
    return x / (x.abs().amax(1, keepdim=True) + 1e-6) * uniform(3000, 27000, count, device)


def mask(mel):
    """SpecAugment (Park and others 2019): bands and stretches are made flat."""
    count, time, bands = mel.shape
    mel = mel.clone()
    mean = mel.mean((1, 2), keepdim=True)
    for _ in range(2):
        f, width = random.randint(0, bands - 1), random.randint(0, 5)
        mel[:, :, f : f + width] = mean
        t, length = random.randint(0, max(1, time - 1)), random.randint(0, 12)
        mel[:, t : t + length] = mean
    return mel
