#include "graph/worker_team.hpp"

#include <algorithm>

namespace spadework::graph {

WorkerTeam::WorkerTeam(int threads) {
    for (int t = 1; t < threads; ++t)
        helpers_.emplace_back([this, t] { help(static_cast<std::size_t>(t)); });
}

WorkerTeam::~WorkerTeam() {
    {
        const std::lock_guard lock(mutex_);
        closing_ = true;
    }
    start_.notify_all();
    for (std::thread& helper : helpers_)
        helper.join();
}

void WorkerTeam::run(std::size_t count, std::size_t batch, const std::function<void(std::size_t, std::size_t)>& work) {
    if (helpers_.empty() || count <= batch) {
        for (std::size_t i = 0; i < count; ++i)
            work(i, 0);
        return;
    }
    {
        const std::lock_guard lock(mutex_);
        work_ = &work;
        count_ = count;
        batch_ = std::max<std::size_t>(batch, 1);
        next_ = 0;
        busy_ = helpers_.size();
        ++round_;
    }
    start_.notify_all();
    take_batches(0);
    std::unique_lock lock(mutex_);
    done_.wait(lock, [this] { return busy_ == 0; });
}

void WorkerTeam::take_batches(std::size_t worker) {
    for (;;) {
        const std::size_t begin = next_.fetch_add(batch_);
        if (begin >= count_) return;
        for (std::size_t i = begin; i < std::min(begin + batch_, count_); ++i)
            (*work_)(i, worker);
    }
}

void WorkerTeam::help(std::size_t worker) {
    for (std::size_t seen = 0;;) {
        {
            std::unique_lock lock(mutex_);
            start_.wait(lock, [&] { return closing_ || round_ != seen; });
            if (closing_) return;
            seen = round_;
        }
        take_batches(worker);
        {
            const std::lock_guard lock(mutex_);
            if (--busy_ == 0) done_.notify_one();
        }
    }
}

int threads_worth_waking(int allowed, std::size_t demands, std::size_t edges) {
    constexpr std::size_t small_work = 100'000;  // Measured: 40 demands on 1,000 edges run faster on one thread.
    return demands * edges < small_work ? 1 : allowed;
}

}  // namespace spadework::graph
