#pragma once

// Threads that share out numbered pieces of work.

#include <atomic>
#include <condition_variable>
#include <cstddef>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace spadework::graph {

/// Runs work(index, worker) for each index once. Which worker takes which index is left open, so the work must write
/// only to places that belong to the index (or to scratch space that belongs to the worker).
class WorkerTeam {
public:
    /// `threads` counts the caller, who works too. Less than 1 is taken as 1.
    explicit WorkerTeam(int threads);
    ~WorkerTeam();
    WorkerTeam(const WorkerTeam&) = delete;
    WorkerTeam& operator=(const WorkerTeam&) = delete;

    [[nodiscard]] std::size_t size() const { return helpers_.size() + 1; }

    /// Hands out indices 0 .. count-1 in batches; comes back when all are done.
    void run(std::size_t count, std::size_t batch, const std::function<void(std::size_t, std::size_t)>& work);

private:
    void help(std::size_t worker);
    void take_batches(std::size_t worker);

    std::vector<std::thread> helpers_;
    std::mutex mutex_;
    std::condition_variable start_;
    std::condition_variable done_;
    const std::function<void(std::size_t, std::size_t)>* work_ = nullptr;
    std::size_t count_ = 0;
    std::size_t batch_ = 1;
    std::atomic<std::size_t> next_{0};
    std::size_t round_ = 0;
    std::size_t busy_ = 0;
    bool closing_ = false;
};

/// How many of the threads allowed are worth waking for passes over so many demands and edges: one for small work,
/// where waking takes longer than working.
int threads_worth_waking(int allowed, std::size_t demands, std::size_t edges);

}  // namespace spadework::graph
